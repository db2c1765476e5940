package dev.cupwarden.core.tick;

import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * An order that names several cups: carried out for all of them or for none. Whether all can is
 * found by carrying it out on a copy of the draft first, so that no order needs a second set of
 * checks.
 */
final class ManyCups {
  /** Carries out what is asked of one cup, or says why not. */
  interface Hand {
    Receipt carryOut(BenchDraft draft, Order one) throws OrderRefused;
  }

  private ManyCups() {}

  /** All of it, with a receipt that tells what became of it at each cup. */
  static Receipt carryOut(BenchDraft draft, Order.ToEach order, Hand hand) throws OrderRefused {
    SortedMap<String, String> against = against(draft, order, hand);
    if (!against.isEmpty()) {
      return refused(order.id(), order.each().keySet(), against);
    }
    List<Receipt.AtCup> each = new ArrayList<>();
    boolean underWay = false;
    for (Map.Entry<String, Order> one : order.each().entrySet()) {
      Receipt receipt = hand.carryOut(draft, one.getValue());
      each.add(new Receipt.AtCup(one.getKey(), receipt.outcome(), receipt.why()));
      if (receipt.outcome().equals("taken")) {
        underWay = true;
        CupDraft cup = draft.cups.get(one.getKey());
        cup.watering = cup.watering.with(cup.refill().amongMany());
      }
    }
    return Receipt.ofEach(order.id(), underWay ? "taken" : "done", null, List.copyOf(each));
  }

  /** What stands against it, by cup. */
  private static SortedMap<String, String> against(
      BenchDraft draft, Order.ToEach order, Hand hand) {
    SortedMap<String, String> against = new TreeMap<>();
    BenchDraft copy = draft.copy();
    order
        .each()
        .forEach(
            (cup, one) -> {
              try {
                hand.carryOut(copy, one);
              } catch (OrderRefused refused) {
                against.put(cup, refused.getMessage());
              }
            });
    return against;
  }

  /** Refused as a whole, since some of its cups stand against it. */
  private static Receipt refused(String id, Collection<String> cups, Map<String, String> against) {
    String first = against.values().iterator().next();
    String why =
        against.size() == 1
            ? "nothing was done: " + first
            : "nothing was done, since %d of %d cups stand against it: %s"
                .formatted(against.size(), cups.size(), first);
    List<Receipt.AtCup> each =
        cups.stream().map(cup -> new Receipt.AtCup(cup, "refused", against.get(cup))).toList();
    return Receipt.ofEach(id, "refused", why, each);
  }

  /**
   * Takes back doses to several cups of which the limits forbid one before any of them has begun.
   *
   * @param forbidden by the order's id: why, by cup
   */
  static void takeBack(BenchDraft draft, Map<String, SortedMap<String, String>> forbidden) {
    forbidden.forEach(
        (id, against) -> {
          List<String> cups = new ArrayList<>();
          for (CupDraft cup : draft.cups.values()) {
            if (cup.refill() != null && id.equals(cup.refill().orderId())) {
              cup.watering = cup.watering.withoutRefill();
              cups.add(cup.name());
            }
          }
          draft.receipts.removeIf(receipt -> id.equals(receipt.id()));
          draft.receipts.add(refused(id, cups, against));
        });
  }

  /** A cup's part of a dose is over; the last of an order's cups tells it for the order. */
  static Receipt over(BenchDraft draft, CupDraft over, String outcome, String how) {
    String id = over.refill().orderId();
    if (!over.refill().toMany()) {
      return new Receipt(id, outcome, how, List.of());
    }
    boolean others =
        draft.cups.values().stream()
            .anyMatch(
                cup -> cup != over && cup.refill() != null && id.equals(cup.refill().orderId()));
    Receipt.AtCup here = new Receipt.AtCup(over.name(), outcome, how);
    return Receipt.ofEach(id, others ? "taken" : "done", null, List.of(here));
  }
}

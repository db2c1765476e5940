package dev.cupwarden.core.tick;

import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.watering.Refill;
import java.util.Locale;

/** A bench that is only watched: what it would be given is told, and nothing is pumped. */
final class WatchOnly {
  private WatchOnly() {}

  /** What a person orders of the pump cannot be done. */
  static void refusePump(BenchDraft draft) throws OrderRefused {
    if (draft.seen.watchOnly()) {
      throw new OrderRefused(Sentences.watchOnly());
    }
  }

  /** What was under way when the watch began ends; a person who ordered it is told. */
  static void endWhatIsUnderWay(BenchDraft draft) {
    for (CupDraft cup : draft.cups.values()) {
      Refill refill = cup.refill();
      if (refill != null) {
        if (refill.cause().byHand()) {
          String how =
              String.format(
                  Locale.ROOT,
                  "ended early: %s, %.1f mL given",
                  Sentences.watchOnly(),
                  refill.orderedMl());
          draft.receipts.add(ManyCups.over(draft, cup, "done", how));
        }
        cup.endRefill(draft.at);
      }
    }
    if (draft.hose.priming != null) {
      PastCups.end(draft, Sentences.watchOnly());
    }
  }
}

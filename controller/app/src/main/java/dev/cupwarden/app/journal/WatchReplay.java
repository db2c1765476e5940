package dev.cupwarden.app.journal;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.watering.CupLines;
import dev.cupwarden.core.watering.WatchedCup;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a bench that was only watched would have been given, cup by cup, beside what it got: decided
 * anew from what was seen.
 */
public final class WatchReplay {
  /**
   * A cup over the watch.
   *
   * @param from the first look
   * @param last the cup as it stood at the last
   */
  public record Cup(Instant from, CupStatus last, List<WatchedCup.Watering> waterings) {}

  private static final class Account {
    private final WatchedCup watched = new WatchedCup();
    private Instant from;
    private CupStatus last;
  }

  private final SortedMap<String, Account> accounts = new TreeMap<>();

  private WatchReplay() {}

  /**
   * Each cup that was watched, by name.
   *
   * @param since looks before it are left out
   * @param cup the only one to tell of; none for all
   * @throws JournalException where nothing was watched since then, or not that cup, or what the
   *     journal holds cannot be decided by this program
   */
  public static SortedMap<String, Cup> of(
      JournalExport journal, Instant since, Optional<String> cup) throws JournalException {
    WatchReplay replay = new WatchReplay();
    List<JournalExport.StartEntry> starts = journal.starts();
    for (int i = 0; i < starts.size(); i++) {
      boolean last = i + 1 == starts.size();
      // A day that ended where the program was started anew has its ticks once.
      if (last || starts.get(i + 1).firstTick() > starts.get(i).firstTick()) {
        replay.follow(new TickReplay(journal, starts.get(i)), since);
      }
    }
    SortedMap<String, Cup> cups = new TreeMap<>();
    replay.accounts.forEach(
        (name, of) -> cups.put(name, new Cup(of.from, of.last, of.watched.waterings())));
    if (cups.isEmpty()) {
      throw JournalException.unanswerable("was not run with --watch in the time that it keeps");
    }
    if (cup.isPresent() && !cups.containsKey(cup.get())) {
      throw JournalException.unanswerable(
          "watched no cup " + cup.get() + "; it has " + String.join(", ", cups.keySet()));
    }
    cups.keySet().removeIf(name -> cup.isPresent() && !cup.get().equals(name));
    return cups;
  }

  private void follow(TickReplay ticks, Instant since) throws JournalException {
    while (ticks.next(Instant.MAX)) {
      if (ticks.seen().watchOnly() && !ticks.seen().at().isBefore(since)) {
        for (CupStatus cup : ticks.tick().standing(ticks.state()).statuses()) {
          see(ticks, cup);
        }
      }
    }
  }

  private void see(TickReplay ticks, CupStatus cup) {
    Account account = accounts.computeIfAbsent(cup.cup(), name -> new Account());
    account.from = account.from == null ? cup.at() : account.from;
    account.last = cup;
    if (cup.depletion() != null && cup.roomMl() != null) {
      account.watched.see(
          new WatchedCup.Moment(
              cup.at(),
              cup.depletion(),
              new CupLines(cup.wet(), cup.refill(), cup.due(), cup.dry()),
              cup.roomMl(),
              wish(ticks.step().brief(), cup.cup()),
              cup.reasons().stream().map(CupStatus.Told::code).toList(),
              cup.dueAt()),
          cans(ticks, cup.cup()));
    }
  }

  private static WatchedCup.Wish wish(Advice told, String cup) {
    return told.passes().stream()
        .filter(pass -> pass.cup().equals(cup))
        .findFirst()
        .map(pass -> new WatchedCup.Wish(pass.why(), pass.strength()))
        .orElse(null);
  }

  /** What a person gave since the look before. */
  private static List<WatchedCup.Can> cans(TickReplay ticks, String cup) {
    BenchState before = ticks.before();
    List<WatchedCup.Can> cans = new ArrayList<>();
    for (Given given : ticks.state().cups().get(cup).doses().given()) {
      if (given.byHand() && before.at() != null && given.at().isAfter(before.at())) {
        cans.add(new WatchedCup.Can(given.at(), given.ml()));
      }
    }
    return cans;
  }
}

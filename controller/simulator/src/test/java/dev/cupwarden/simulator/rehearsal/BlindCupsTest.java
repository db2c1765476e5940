package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Every third cup of many benches loses its scale for three weeks, and nobody comes. By the
 * simulator's own water, not by what the controller reckons.
 */
class BlindCupsTest {
  private static final int BENCHES = 25;

  /** So far past its dry line a cup may come within a fortnight. */
  private static final double PAST_DRY = 0.1;

  /** And not so long past its wet line. */
  private static final double WET_H = 24;

  private static List<BlindTrial.Blind> trial(int every, int benches) throws SetupException {
    List<BlindTrial.Blind> all = new ArrayList<>();
    for (int bench = 0; bench < benches; bench++) {
      BlindTrial.World world = BlindTrial.WORLDS.get(bench % BlindTrial.WORLDS.size());
      all.addAll(new BlindTrial(world, 1000 + bench, 10 + bench * 11 % 31).run(every));
    }
    return all;
  }

  /**
   * Every cup for a week, and for a fortnight all but one in a hundred: a cutting that comes to use
   * a quarter of its water a day and outgrows its neighbours meanwhile is known too little for
   * more.
   */
  @Test
  void twoHundredBlindCupsAreKeptBetweenTheirLinesForAFortnight() throws SetupException {
    List<BlindTrial.Blind> all = trial(3, BENCHES);
    assertTrue(all.size() >= 190, all.size() + " cups");
    for (RootStage stage : RootStage.values()) {
      List<BlindTrial.Blind> of = all.stream().filter(cup -> cup.stage() == stage).toList();
      System.out.println(BlindTrial.row(stage.word(), of));
    }
    System.out.println(all.stream().filter(BlindTrial.Blind::outgrown).count() + " outgrown");
    List<BlindTrial.Blind> past = new ArrayList<>();
    for (BlindTrial.Blind cup : all) {
      assertTrue(cup.longestWetH(14) < WET_H, cup.toString());
      assertTrue(cup.mostPastDry(7) <= PAST_DRY, cup.toString());
      if (!cup.outgrown() && cup.mostPastDry(14) > PAST_DRY) {
        past.add(cup);
      }
    }
    assertTrue(past.size() <= all.size() / 100, past.toString());
  }

  @Test
  void aBenchWhoseScalesAllDieIsWateredByWhatEachCupUsed() throws SetupException {
    List<BlindTrial.Blind> all = trial(1, 4);
    List<BlindTrial.Blind> leafy = all.stream().filter(cup -> cup.stage().takesFeed()).toList();
    System.out.println(BlindTrial.row("all scales dead", leafy));
    double worst =
        leafy.stream().map(cup -> cup.mostPastDry(7)).max(Comparator.naturalOrder()).orElseThrow();
    assertTrue(worst <= PAST_DRY, worst + " past its dry line within a week");
    assertEquals(0, leafy.stream().filter(cup -> cup.longestWetH(14) >= WET_H).count());
  }
}

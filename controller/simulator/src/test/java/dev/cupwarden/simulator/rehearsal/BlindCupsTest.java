package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Every third cup of many benches loses its scale for three weeks, and nobody comes. By the
 * simulator's own water, not by what the controller reckons.
 */
class BlindCupsTest {
  private static final int BENCHES = 25;
  private static final int FIRST_SEED = 7700;

  /** So far past its dry line a cup may come within a fortnight. */
  private static final double PAST_DRY = 0.1;

  /** And not so long past its wet line. */
  private static final double WET_H = 24;

  /** What a cup that was reckoned badly would be told of, once it is weighed again. */
  private static final Set<String> FALSE =
      Set.of("valve-leaking", "cups-swapped", "weigh-drained", "dose-short");

  private static List<BlindTrial.Blind> trial(World world, int every, int benches, int deadDays)
      throws SetupException {
    List<BlindTrial.Blind> all = new ArrayList<>();
    for (int bench = 0; bench < benches; bench++) {
      BlindTrial.Climate climate = BlindTrial.CLIMATES.get(bench % BlindTrial.CLIMATES.size());
      int learningDays = 10 + bench * 11 % 31;
      BlindTrial trial = new BlindTrial(world, climate, FIRST_SEED + bench, learningDays, deadDays);
      all.addAll(trial.run(every));
    }
    return all;
  }

  /** Struck cups have their three days of rations, and lose little. */
  @Test
  void twoHundredBlindCupsAreKeptBetweenTheirLinesForAFortnight() throws SetupException {
    List<BlindTrial.Blind> all = trial(World.FIRST, 3, BENCHES, BlindTrial.BLIND_DAYS);
    assertTrue(all.size() >= 190, all.size() + " cups");
    for (RootStage stage : RootStage.values()) {
      List<BlindTrial.Blind> of = all.stream().filter(cup -> cup.stage() == stage).toList();
      System.out.println(BlindTrial.row(stage.word(), of));
    }
    for (BlindTrial.Blind cup : all) {
      assertTrue(cup.longestWetH(BlindTrial.BLIND_DAYS) < WET_H, cup.toString());
      assertTrue(cup.mostPastDry(14) <= PAST_DRY, cup.toString());
    }
  }

  /**
   * Here leaves, mixes and air go other ways than the rules' own picture. One circling cup of 200
   * was seen 0.26 past its dry line after a fortnight: one in a hundred may be beyond.
   */
  @Test
  void blindCupsOfTheSecondWorldAreKeptSoButForOneInAHundred() throws SetupException {
    List<BlindTrial.Blind> all = trial(World.SECOND, 3, BENCHES, BlindTrial.BLIND_DAYS);
    assertTrue(all.size() >= 190, all.size() + " cups");
    int beyond = 0;
    for (BlindTrial.Blind cup : all) {
      assertTrue(cup.longestWetH(BlindTrial.BLIND_DAYS) < WET_H, cup.toString());
      if (cup.mostPastDry(14) > PAST_DRY) {
        System.out.println(cup);
        beyond++;
      }
    }
    assertTrue(beyond <= all.size() / 100, beyond + " of " + all.size() + " cups");
  }

  @Test
  void aBenchWhoseScalesAllDieIsWateredByWhatEachCupUsed() throws SetupException {
    List<BlindTrial.Blind> all = trial(World.FIRST, 1, 4, BlindTrial.BLIND_DAYS);
    List<BlindTrial.Blind> leafy = all.stream().filter(cup -> cup.stage().takesFeed()).toList();
    System.out.println(BlindTrial.row("all scales dead", leafy));
    for (BlindTrial.Blind cup : leafy) {
      assertTrue(cup.longestWetH(14) < WET_H, cup.toString());
      assertTrue(cup.mostPastDry(7) <= PAST_DRY, cup.toString());
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {7, 14})
  void aScaleThatHealsTellsNothingFalseOfItsCup(int deadDays) throws SetupException {
    for (BlindTrial.Blind cup : trial(World.FIRST, 3, 12, deadDays)) {
      Set<String> told = new TreeSet<>(cup.told());
      told.retainAll(FALSE);
      assertEquals(Set.of(), told, cup.toString());
      if (cup.stage().rooted()) {
        assertTrue(cup.mostPastDry(BlindTrial.BLIND_DAYS) <= PAST_DRY, cup.toString());
      }
    }
  }
}

package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.RootSignal;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Once a day a cup's use stands as the logarithm of what it is of the middle of four or more. */
class UpdateRootSignalsTest {
  private static final String MORE =
      """
        A3: {vessel: tall, mix: coir-perlite, plant: elder, stage: white, cutting: 9 g}
        A4: {vessel: tall, mix: coir-perlite, plant: elder, stage: white, cutting: 9 g}
        A5: {vessel: tall, mix: coir-perlite, plant: elder, stage: white, cutting: 9 g}
      """;

  private final BenchDraft draft = DraftBench.of(Story.BENCH + MORE).draft();

  /** Over ten hours, in air that nobody measured. */
  private void uses(String name, double gPerH) {
    CupDraft cup = DraftBench.weighs(draft, name, 300.0);
    use(cup, 10.0 * gPerH, 10.0, 0.0);
  }

  private static void use(CupDraft cup, double lossG, double hours, double driveKpaH) {
    DraftBench.keeps(
        cup,
        "use",
        "{\"loss_g\":%s,\"hours\":%s,\"drive_kpa_h\":%s,\"loss_with_drive_g\":%s}"
            .formatted(lossG, hours, driveKpaH, driveKpaH > 0 ? lossG : 0.0));
  }

  private RootSignal roots(String name) {
    return draft.cups.get(name).plant.roots();
  }

  private void update() {
    new UpdateRootSignals().update(draft);
  }

  /** The middle of 1, 2, 3, 4 and 6 g/h is 3. */
  @Test
  void useIsHeldAgainstTheMiddleOfTheBench() {
    List.of("A1", "A2", "A3", "A4").forEach(name -> uses(name, name.charAt(1) - '0'));
    uses("A5", 6.0);
    update();
    assertEquals(Math.log(1.0 / 3.0), roots("A1").quick(), 1e-9);
    assertEquals(Math.log(2.0), roots("A5").quick(), 1e-9);
    assertEquals(AT, roots("A5").at());
    assertEquals(AT, draft.rootsAt);
  }

  /** Three say nothing of the weather: each is held against its own past alone. */
  @Test
  void fewerThanFourAreNoMeasure() {
    List.of("A1", "A2", "A3").forEach(name -> uses(name, 2.0));
    update();
    assertEquals(Math.log(2.0), roots("A1").quick(), 1e-9);
    assertEquals(RootSignal.NONE, roots("A4"));
  }

  /** 20 g over 8 kPa h: 2.5 g/h and kPa, at 1 kPa and the 0.1 of air that is still. */
  @Test
  void useIsComparedInTheSameAir() {
    CupDraft cup = DraftBench.weighs(draft, "A1", 300.0);
    use(cup, 20.0, 10.0, 8.0);
    update();
    assertEquals(Math.log(2.5 * 1.1), roots("A1").quick(), 1e-9);
  }

  @ParameterizedTest(name = "last compared {0} s ago: {1} days")
  @CsvSource({"86400, 1", "86399, 0"})
  void onceADay(long seconds, int days) {
    Instant last = AT.minusSeconds(seconds);
    draft.rootsAt = last;
    uses("A1", 2.0);
    update();
    assertEquals(days, roots("A1").days());
    assertEquals(days == 1 ? AT : last, draft.rootsAt);
  }

  @Test
  void cupThatIsAwayDoubtedOrHardlySeenSaysNothing() {
    uses("A1", 2.0);
    draft.cups.get("A1").presence =
        draft.cups.get("A1").presence.takenAway(AT.minus(Duration.ofHours(1)));
    uses("A2", 2.0);
    DraftBench.doubted(draft, "A2", 300.0, 5.0, DistrustCode.SCALE_NOISY);
    CupDraft young = DraftBench.weighs(draft, "A3", 300.0);
    use(young, 5.8, 2.9, 0.0);
    CupDraft seen = DraftBench.weighs(draft, "A4", 300.0);
    use(seen, 6.0, 3.0, 0.0);
    update();
    assertEquals(RootSignal.NONE, roots("A1"));
    assertEquals(RootSignal.NONE, roots("A2"));
    assertEquals(RootSignal.NONE, roots("A3"));
    assertEquals(Math.log(2.0), roots("A4").quick(), 1e-9);
  }
}

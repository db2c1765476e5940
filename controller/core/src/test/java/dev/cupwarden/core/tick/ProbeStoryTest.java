package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A1 told by a moisture probe in place of a scale: 515.59 mL of mix, 78.559 g without water, 323.3
 * mL at capacity of which it can take 271.8 (CupWaterTest). It shows thousandths of volume, 0.5 g.
 */
class ProbeStoryTest {
  private static final double VOLUME_ML = 515.59;
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final int TICKS_A_DAY = 288;

  private final Story story = Story.from("2027-02-14T08:00:00Z");
  private final Random random = new Random(1);
  private double waterMl = 320.0;
  private double wetterShownMl = waterMl;
  private int tick;

  /** What a probe shows beside water. */
  private enum ProbeError {
    NONE,
    /** 0.0015 of volume a kelvin, over days of 10 K. */
    TEMPERATURE,
    /** 0.001 of volume a day, as salts gather. */
    SALT,
    /** Shows a change of water only beyond 4 mL of it. */
    HYSTERESIS;

    double shown(double waterMl, double stickingMl, int tick) {
      double theta = (this == HYSTERESIS ? stickingMl : waterMl) / VOLUME_ML;
      double hour = tick / 12.0;
      return switch (this) {
        case TEMPERATURE -> theta + 0.0015 * 5.0 * Math.sin(2.0 * Math.PI * (hour - 2.0) / 24.0);
        case SALT -> theta + 0.001 * hour / 24.0;
        case NONE, HYSTERESIS -> theta;
      };
    }
  }

  private double probe(ProbeError error) {
    if (Math.abs(waterMl - wetterShownMl) > 4.0) {
      wetterShownMl = waterMl - 4.0 * Math.signum(waterMl - wetterShownMl);
    }
    double theta = error.shown(waterMl, wetterShownMl, tick) + 0.0008 * random.nextGaussian();
    return Math.rint(1000.0 * theta) / 1000.0;
  }

  /** It loses 2 g/h by day and 0.4 g/h by night. */
  private void days(double days, ProbeError error) {
    for (int i = 0; i < days * TICKS_A_DAY; i++) {
      next();
      story.theta.put("A1", probe(error));
      look();
    }
  }

  private void next() {
    tick++;
    waterMl -= (tick % TICKS_A_DAY < TICKS_A_DAY / 2.4 ? 2.0 : 0.4) / 12.0;
    story.wait(TICK);
  }

  private void look() {
    for (Advice.Pass pass : story.look().passes()) {
      waterMl += pass.plainMl() + pass.feedMl();
    }
  }

  private double depletion() {
    return 1.0 - (waterMl - 0.1 * VOLUME_ML) / 271.754;
  }

  private List<String> told() {
    return story.alerts.stream()
        .filter(notice -> "A1".equals(notice.cup()))
        .map(AlertNotice::code)
        .distinct()
        .toList();
  }

  /** What was told last of A1. */
  private String says() {
    return story.alerts.stream()
        .filter(notice -> "A1".equals(notice.cup()))
        .reduce((before, last) -> last)
        .map(AlertNotice::whatToDo)
        .orElse("");
  }

  @ParameterizedTest
  @EnumSource(ProbeError.class)
  void cupToldByAProbeIsWateredInItsBandAndNothingIsToldOfAGoodOne(ProbeError error) {
    for (int day = 0; day < 14; day++) {
      days(1, error);
      assertTrue(depletion() > -0.1 && depletion() < 0.75, day + ": " + depletion());
    }
    assertTrue(story.givenMl("A1") > 100.0, () -> "given " + story.givenMl("A1"));
    assertEquals(List.of(), told());
  }

  /** In air it shows hardly any water; nothing is watered by that, and a person is told. */
  @Test
  void probeThatLostContactIsNotBelievedAndToldAndComesBack() {
    days(5, ProbeError.NONE);
    double givenMl = story.givenMl("A1");
    double leftMl = waterMl;
    for (int i = 0; i < 60; i++) {
      next();
      story.theta.put("A1", 0.02);
      look();
    }
    assertEquals(givenMl, story.givenMl("A1"), "five hours");
    assertTrue(waterMl < leftMl);
    assertEquals(List.of("scale-silent"), told());
    assertTrue(says().startsWith("Its probe is silent, or shows less"), says());
    days(0.1, ProbeError.NONE);
    assertTrue(story.cleared("scale-silent"));
    assertFalse(story.raised("near-dry") || story.raised("dose-short"));
  }

  /** It is watered by what was reckoned, as any cup that nobody weighs. */
  @Test
  void probeThatLostContactForADayAndAHalfBringsNoRescue() {
    story.airC = 20.0;
    story.rhPct = 60.0;
    story.rootC = 19.0;
    days(5, ProbeError.NONE);
    int passes = story.passes.size();
    for (int i = 0; i < 1.5 * TICKS_A_DAY; i++) {
      next();
      story.theta.put("A1", 0.02);
      look();
    }
    List<Advice.Pass> since = story.passes.subList(passes, story.passes.size());
    assertTrue(since.stream().allMatch(pass -> pass.why().equals("blind")), since.toString());
    assertTrue(depletion() > 0.0 && depletion() < 0.75, () -> "at " + depletion());
    assertTrue(story.raised("blind-ration"));
  }

  /** Where both tell of a cup the scale counts: the probe may be calibrated beside it. */
  @Test
  void scaleOfTheSameCupCounts() {
    story.with("A1", 360.0);
    story.theta.put("A1", 0.10);
    story.look();
    assertEquals((401.872 - 360.0) / 271.754, story.look().cups().get("A1").depletion(), 1e-3);
  }
}

package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.setup.Feed;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup of 200 mL of available water and passes of 50 mL, worked out by hand. */
class FeedLedgerTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final Duration LABEL = Duration.ofDays(14);
  private static final Feed LEAFY = new Feed("leafy", 20, 10, 20, 1.0, LABEL, 5, 1.2);
  private static final Feed FRUITY = new Feed("fruity", 10, 30, 20, 1.0, LABEL, 5, 1.2);
  private static final Feed NITRATE = new Feed("nitrate", 20, 0, 0, 1.0, LABEL, 5, 1.2);
  private static final Feed POTASH = new Feed("potash", 5, 5, 30, 1.0, LABEL, 5, 1.2);
  private static final Map<String, Feed> FEEDS =
      Map.of("leafy", LEAFY, "fruity", FRUITY, "nitrate", NITRATE, "potash", POTASH);

  private static Given given(Duration ago, double ml, double strength, String feed) {
    return new Given(AT.minus(ago), ml, strength, feed, 100.0, false);
  }

  private static double left(Feed feed, Given... given) {
    return FeedLedger.strengthLeft(List.of(given), AT, feed, FEEDS, 50.0, 200.0);
  }

  @Test
  void sumOfStrengthTimesMillilitresWithinTheLabelsInterval() {
    List<Given> given =
        List.of(
            given(LABEL, 200, 1.0, "leafy"),
            given(LABEL.minusSeconds(1), 100, 0.5, "leafy"),
            given(Duration.ofDays(3), 30, 0.0, null),
            given(Duration.ofDays(1), 60, 0.25, "leafy"));
    assertEquals((50.0 + 15.0) / 200.0, FeedLedger.fed(given, AT, LABEL, 200.0), 1e-12);
    assertEquals(15.0 / 200.0, FeedLedger.fed(given, AT, Duration.ofDays(7), 200.0), 1e-12);
  }

  @ParameterizedTest(name = "{0} mL at label strength leave {1}")
  @CsvSource({"0, 4.0", "50, 3.0", "100, 2.0", "190, 0.2", "200, 0.0", "250, 0.0"})
  void whatIsLeftForAPassOfTheSameFeed(double ml, double strength) {
    assertEquals(strength, left(LEAFY, given(Duration.ofDays(1), ml, 1.0, "leafy")), 1e-9);
  }

  @Test
  void whatIsAsOldAsTheIntervalNoLongerCounts() {
    assertEquals(4.0, left(LEAFY, given(LABEL, 200, 1.0, "leafy")), 1e-9);
    assertEquals(0.0, left(LEAFY, given(LABEL.minusSeconds(1), 200, 1.0, "leafy")), 1e-9);
  }

  /**
   * 30 mL of fruity are 9 mg of P2O5; leafy's label allows 20 mg in 200 mL, and brings 5 mg in a
   * pass: (20 - 9) / 5 = 2.2, where nitrogen would leave 3.7 and the sum of both feeds 3.4.
   */
  @Test
  void anotherFeedCountsByItsElements() {
    Duration ago = Duration.ofDays(1);
    assertEquals(2.2, left(LEAFY, given(ago, 30, 1.0, "fruity")), 1e-9);
    assertEquals(0.0, left(LEAFY, given(ago, 100, 1.0, "fruity")), 1e-9, "30 mg of P2O5");
    // Leafy brought 10 mg of N, of which fruity allows 20 and brings 5: (20 - 10) / 5.
    assertEquals(2.0, left(FRUITY, given(ago, 50, 1.0, "leafy")), 1e-9);
  }

  @Test
  void elementThatAFeedLacksDoesNotHoldIt() {
    assertEquals(3.4, left(NITRATE, given(Duration.ofDays(1), 30, 1.0, "fruity")), 1e-9);
  }

  /** 100 mL of potash are 30 mg of K2O, where leafy's label allows 40 mg and a pass brings 10. */
  @Test
  void potassiumHoldsWhereItIsNearestToItsMost() {
    assertEquals(1.0, left(LEAFY, given(Duration.ofDays(1), 100, 1.0, "potash")), 1e-9);
  }

  @Test
  void plainWaterDoesNotCount() {
    assertEquals(4.0, left(LEAFY, given(Duration.ofDays(1), 100, 0.0, null)), 1e-9);
  }

  @Test
  void feedThatNobodyKnowsCountsAsTheOneAtHand() {
    assertEquals(3.0, left(LEAFY, given(Duration.ofDays(1), 50, 1.0, "lost")), 1e-9);
  }
}

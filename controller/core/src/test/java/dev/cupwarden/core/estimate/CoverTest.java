package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;

/** A cup of 300 g that stands still, and what is put over it. A reading may be 2 g off. */
class CoverTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final double CUP_G = 300.0;

  private static Instant min(int minutes) {
    return AT.plusSeconds(60L * minutes);
  }

  private static Cover shows(Cover cover, int minutes, double readG) {
    return cover.seen(min(minutes), readG, 50.0, CUP_G, 2.0);
  }

  @Test
  void stepWithinTenMinutesOfTheWordIsTheCovers() {
    Cover cover = shows(Cover.NONE.told(true, AT), 10, 312.0);
    assertTrue(cover.on() && cover.rests());
    assertEquals(12.0, cover.massG());
    assertEquals(12.0, cover.offG());
  }

  @Test
  void stepLaterThanThatIsNot() {
    Cover still = shows(Cover.NONE.told(true, AT), 5, 300.0);
    assertEquals(0.0, shows(still, 11, 312.0).offG());
  }

  /** The kitchen scale: the next line comes a day later. */
  @Test
  void firstReadingAfterTheWordCountsHoweverLate() {
    Cover same = shows(Cover.NONE.told(true, AT), 0, 300.5);
    assertEquals(12.0, shows(same, 1440, 312.0).offG());
    Cover onTheLine = shows(Cover.NONE.told(true, AT), 0, 312.0);
    assertEquals(12.0, shows(onTheLine, 1440, 330.0).offG(), "the line itself had shown it");
  }

  @Test
  void handThatPressesMeanwhileIsNoPartOfIt() {
    Cover pressed = shows(Cover.NONE.told(true, AT), 5, 480.0);
    assertEquals(180.0, pressed.offG());
    assertEquals(12.0, shows(pressed, 10, 312.0).offG());
    Cover late = shows(shows(Cover.NONE.told(true, AT), 9, 480.0), 14, 312.0);
    assertEquals(12.0, late.offG(), "a step at the end of the time waits for the next");
    assertEquals(12.0, shows(shows(late, 18, 312.0), 19, 340.0).offG(), "and that ends it");
  }

  @Test
  void emptyScaleIsNoStep() {
    Cover told = Cover.NONE.told(true, AT);
    assertSame(told, shows(told, 5, 2.0));
  }

  @Test
  void takenOffForGoodNothingIsLeftOfIt() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 312.0);
    Cover off = shows(on.told(false, min(600)), 605, 300.4);
    assertFalse(off.on());
    assertEquals(0.0, off.offG());
    assertEquals(0.0, off.massG());
  }

  /** Its weight had counted as the cup's own, and goes on doing so. */
  @Test
  void coverThatWasThereFromTheStartLeavesItsWeight() {
    Cover off = shows(Cover.FROM_THE_START.told(false, AT), 5, 288.0);
    assertEquals(-12.0, off.offG());
    assertEquals(0.0, shows(off, 600, 288.0).offG() + 12.0);
  }

  @Test
  void liftedForItsHourItIsKnownByItsMassAndComesBack() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 320.0);
    Cover lifted = shows(on, 600, 301.0);
    assertEquals(0.0, lifted.offG());
    assertEquals(min(600), lifted.offSince());
    assertEquals(min(600), shows(lifted, 605, 300.0).offSince());
    Cover back = shows(lifted, 660, 319.0);
    assertEquals(20.0, back.offG());
    assertNull(back.offSince());
  }

  /** Half of its mass, or half as much again, is something else. */
  @Test
  void otherStepsOfACoveredCupAreItsOwn() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 320.0);
    assertSame(on, shows(on, 600, 310.0));
    assertSame(on, shows(on, 600, 290.0));
    assertSame(on, shows(on, 600, 340.0));
  }

  @Test
  void lightBagIsTakenOffAndNotLookedFor() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 302.5);
    assertEquals(2.5, on.offG());
    assertEquals(0.0, on.massG());
  }

  @Test
  void stepJustBeforeTheWordGoesWithIt() {
    Cover rose = Cover.NONE.stepped(new Cover.Step(AT, 12.0, null));
    assertEquals(12.0, rose.explains(true, min(10)).gainG());
    assertNull(rose.explains(true, min(11)));
    assertNull(rose.explains(false, min(1)), "it is open already");
    assertNull(Cover.NONE.stepped(new Cover.Step(AT, -12.0, null)).explains(true, min(1)));
    assertEquals(12.0, rose.told(true, min(2)).explained(12.0).offG());
    Cover fell = Cover.FROM_THE_START.stepped(new Cover.Step(AT, -12.0, null));
    assertEquals(-12.0, fell.explains(false, min(2)).gainG());
  }

  @Test
  void saidAgainItChangesNothing() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 312.0);
    assertSame(on, on.told(true, min(60)));
    assertSame(Cover.NONE, Cover.NONE.told(false, AT));
  }

  @Test
  void inAnotherVesselOnlyTheWordStays() {
    Cover on = shows(Cover.NONE.told(true, AT), 5, 312.0).repotted();
    assertTrue(on.on());
    assertEquals(0.0, on.offG());
  }
}

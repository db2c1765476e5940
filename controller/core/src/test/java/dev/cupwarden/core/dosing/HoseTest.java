package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Hose.Slug;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class HoseTest {
  private static final double EXACT = 1e-9;

  private static Slug feed(double ml) {
    return new Slug(ml, 0.5, "leafy");
  }

  /** Levenspiel, Chemical Reaction Engineering, 3rd ed., p. 344: 1 - F integrated. */
  @Test
  void aQuarterIsLeftAfterOneVolumeAndAnEighthAfterTwo() {
    Hose full = Hose.full(12.0, 1.0, "leafy");
    assertEquals(12.0, full.labelMl(), EXACT);
    assertEquals(6.0, full.push(Slug.plain(6.0)).after().labelMl(), EXACT);
    assertEquals(3.0, full.push(Slug.plain(12.0)).after().labelMl(), EXACT);
    assertEquals(1.5, full.push(Slug.plain(24.0)).after().labelMl(), EXACT);
    assertEquals(0.5, full.push(Slug.plain(72.0)).after().labelMl(), EXACT);
  }

  /** By hand: of 24 mL ordered 18 come, one and a half volumes: a sixth of it is left. */
  @Test
  void toAPumpThatGivesLessTheHoseIsLonger() {
    Hose asOrdered = Hose.full(12.0, 1.0, "leafy").ofVolume(12.0 / 0.75);
    assertEquals(16.0 / 6.0, asOrdered.push(Slug.plain(24.0)).after().labelMl(), EXACT);
  }

  /** By hand: of 15 mL of feed 12 (1 - 12 / 60) = 9.6 mL stay in 12 mL of hose. */
  @Test
  void passesOfThirtyMillilitresThroughTwelve() {
    Hose.Flow fed = Hose.full(12.0, 0.0, null).push(Slug.plain(15.0), feed(15.0));
    assertEquals(30.0, fed.ml(), EXACT);
    assertEquals(2.7, fed.labelMl(), EXACT);
    assertEquals(0.09, fed.strength(), EXACT);
    Hose.Flow next = fed.after().push(Slug.plain(30.0));
    assertEquals(4.6, next.labelMl(), EXACT);
    assertEquals("leafy", next.feed());
    Hose.Flow third = next.after().push(Slug.plain(30.0));
    assertEquals(0.14, third.labelMl(), EXACT);
    assertEquals(0.06, third.after().labelMl(), EXACT);
  }

  @Test
  void aPassSmallerThanHalfTheHoseBringsNothingOfItsOwnFeed() {
    Hose.Flow small = Hose.full(12.0, 0.0, null).push(feed(6.0));
    assertEquals(0.0, small.labelMl(), EXACT);
    assertEquals(3.0, small.after().labelMl(), EXACT);
    assertTrue(small.after().holdsFeed());
  }

  @Test
  void withoutAHoseWhatGoesInComesOut() {
    Hose.Flow pass = Hose.NONE.push(Slug.plain(10.0), feed(20.0));
    assertEquals(10.0, pass.labelMl(), EXACT);
    assertEquals(Hose.NONE, pass.after());
    assertFalse(pass.after().holdsFeed());
  }

  @Test
  void nothingPushedChangesNothing() {
    Hose hose = Hose.full(12.0, 0.0, null).push(feed(6.0)).after();
    Hose.Flow none = hose.push(Slug.plain(0.0), feed(0.0));
    assertEquals(hose, none.after());
    assertEquals(0.0, none.strength());
    assertNull(none.feed());
  }

  @Test
  void fullOfPlainWaterOrOfNothing() {
    assertEquals(Hose.NONE, Hose.full(0.0, 0.5, "leafy"));
    assertEquals(Hose.full(12.0, 0.0, null), Hose.full(12.0, 0.0, "leafy"));
  }

  /** Nothing of the 6 mL that went in has come out: there is no feed to name. */
  @Test
  void feedThatMostOfAPassWas() {
    assertNull(Hose.full(12.0, 0.0, null).push(feed(6.0)).feed());
    Slug fruity = new Slug(20.0, 0.5, "fruity");
    assertEquals("fruity", Hose.NONE.push(feed(10.0), fruity).feed());
    assertEquals("leafy", Hose.NONE.push(feed(30.0), fruity).feed());
  }

  /**
   * By hand: 36 mL ago 6 mL of feed began to go in. Of them 12 (1 - 12 / 144) - 12 (1 - 12 / 120) =
   * 0.2 mL are left in 12 mL, and 36 / 60 - 36 / 66 = 0.05 mL after 30 mL more.
   */
  @Test
  void lessThanAHundredthIsNotWorthADoubt() {
    Hose fed = Hose.full(12.0, 0.0, null).push(feed(6.0), Slug.plain(30.0)).after();
    assertEquals(0.5, fed.strongest().strength());
    assertEquals("leafy", fed.strongest().feed());
    Hose later = fed.push(Slug.plain(30.0)).after();
    assertFalse(later.holdsFeed());
    assertEquals(0.0, later.strongest().strength());
  }

  /** By hand: 2500 / 500 - 2500 / 625 is 1 mL of 100. */
  @Test
  void justAHundredthCounts() {
    Hose hose = Hose.full(100.0, 0.0, null).push(feed(125.0)).after();
    assertTrue(hose.push(Slug.plain(500.0)).after().holdsFeed());
    assertFalse(hose.push(Slug.plain(501.0)).after().holdsFeed());
  }

  @Test
  void strongestWhereverItStands() {
    Slug strong = new Slug(4.0, 0.75, "fruity");
    Hose plain = Hose.full(12.0, 0.0, null);
    assertEquals("fruity", plain.push(strong, feed(4.0)).after().strongest().feed());
    assertEquals("fruity", plain.push(feed(4.0), strong).after().strongest().feed());
    assertEquals(
        "fruity", plain.push(feed(4.0), strong, Slug.plain(4.0)).after().strongest().feed());
  }

  @Test
  void likeFollowsLikeAsOne() {
    Hose plain = Hose.full(12.0, 0.0, null);
    assertEquals(2, plain.push(feed(2.0), feed(3.0)).after().slugs().size());
    assertEquals(3, plain.push(feed(2.0), new Slug(3.0, 0.5, "fruity")).after().slugs().size());
    assertEquals(3, plain.push(feed(2.0), new Slug(3.0, 0.25, "leafy")).after().slugs().size());
  }

  /**
   * By hand: 1.6 mL in small parts are all still inside 12 mL, 0.8 mL of them at half strength:
   * 10.4 + 0.4. The first 0.1 mL, plain, and what stood there before are one by then: 10.4 of 10.5
   * mL.
   */
  @Test
  void oldestTwoAreTakenTogetherBeyondSixteen() {
    Hose hose = Hose.full(12.0, 1.0, "leafy");
    for (int pass = 0; pass < 8; pass++) {
      assertEquals(2 * pass + 1, hose.slugs().size());
      hose = hose.push(Slug.plain(0.1), feed(0.1)).after();
    }
    assertEquals(16, hose.slugs().size());
    assertEquals(10.8, hose.labelMl(), EXACT);
    Slug oldest = hose.slugs().get(15);
    assertEquals(10.4 / 10.5, oldest.strength(), EXACT);
    assertEquals("leafy", oldest.feed());
  }

  @Test
  void sixteenAreKeptApart() {
    Hose hose = Hose.full(12.0, 1.0, "leafy").push(Slug.plain(0.1)).after();
    for (int pass = 0; pass < 7; pass++) {
      hose = hose.push(feed(0.1), Slug.plain(0.1)).after();
    }
    assertEquals(16, hose.slugs().size());
    assertEquals(1.0, hose.slugs().get(15).strength());
  }

  @Test
  void nothingIsLostAndItStaysSmall() {
    SplittableRandom random = new SplittableRandom(4);
    Hose hose = Hose.full(12.0, 0.0, null);
    double inMl = 0.0;
    double outMl = 0.0;
    for (int pass = 0; pass < 20_000; pass++) {
      double plainMl = random.nextInt(4) == 0 ? 0.0 : 30.0 * random.nextDouble();
      double feedMl = random.nextInt(3) == 0 ? 30.0 * random.nextDouble() : 0.0;
      double strength = random.nextDouble();
      Hose.Flow flow = hose.push(Slug.plain(plainMl), new Slug(feedMl, strength, "leafy"));
      hose = flow.after();
      assertEquals(plainMl + feedMl, flow.ml(), EXACT);
      assertTrue(flow.labelMl() >= 0.0);
      outMl += flow.labelMl();
      inMl += feedMl * strength;
      assertTrue(hose.slugs().size() <= 16, "slugs: " + hose.slugs().size());
      assertEquals(inMl, outMl + hose.labelMl(), 1e-6);
    }
  }

  /** An independent count: layers of equal area, each moved by its own share of the flow. */
  @Test
  void theSameAsLayersThatSlideOverOneAnother() {
    double[][] passes = {{15, 15}, {30, 0}, {0, 11}, {5, 6}, {19, 0}, {10, 20}, {25, 0}};
    Hose hose = Hose.full(12.0, 0.0, null);
    double enteredMl = 0.0;
    List<double[]> entered = new ArrayList<>();
    double outBefore = 0.0;
    for (double[] pass : passes) {
      entered.add(new double[] {enteredMl + pass[0], enteredMl + pass[0] + pass[1]});
      enteredMl += pass[0] + pass[1];
      Hose.Flow flow = hose.push(Slug.plain(pass[0]), feed(pass[1]));
      hose = flow.after();
      double out = leftByLayers(entered, enteredMl, 12.0);
      assertEquals(out - outBefore, flow.labelMl(), 0.01);
      outBefore = out;
    }
  }

  /** Feed that has left so far, mL at label strength, by 20,000 layers. */
  private static double leftByLayers(List<double[]> entered, double nowMl, double volumeMl) {
    int layers = 20_000;
    double sum = 0.0;
    for (int i = 0; i < layers; i++) {
      double s = (i + 0.5) / layers;
      double speed = 2.0 * (1.0 - s);
      double outUntilMl = nowMl - volumeMl / speed;
      for (double[] slug : entered) {
        double gone = Math.max(0.0, Math.min(slug[1], outUntilMl) - slug[0]);
        sum += 0.5 * gone * speed / layers;
      }
    }
    return sum;
  }
}

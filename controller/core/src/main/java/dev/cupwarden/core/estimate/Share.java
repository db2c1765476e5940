package dev.cupwarden.core.estimate;

/**
 * What part of its bench's loss a cup had, learned day by day while it was weighed.
 *
 * <p>Cup and bench are held against one another over a whole day, since leaves draw by day and bare
 * mix dries by night as well. Let i be the logarithm of a day's mean index of the bench, m its
 * fading mean, and x that of the cup's loss over that day's index. Expected is x = level + trend +
 * slope (i - m): a leafy cup loses more than its share on a bright dry day. Level and trend follow
 * what differs, e, by Holt's smoothing with a damped trend (E. S. Gardner and E. McKenzie 1985,
 * Management Science 31:1237, from memory): level' = level + trend + a e, trend' = 0.95 trend +
 * 0.02 e. The slope is that of a fading regression that starts from none. What weather, light and
 * season do to all cups alike falls out. A day counts by how bright it was beside the usual: of a
 * dim one little is lost, and the weight tells it badly. All constants are our choice after own
 * trials.
 *
 * <p>Its numbers are those of one recursion, each step of which writes all of them.
 *
 * @param log level of x; its exponential times the bench's index is the cup's loss, g/h
 * @param trendPerDay by how much it rises in a day
 * @param dayVar variance of one day's x about what was expected
 * @param indexLog m
 * @param squares sum of the squares of i - m, fading over a month
 * @param products sum of the products of i - m and x, likewise
 * @param days taken in
 * @param openLostG lost in the day that still runs, g
 * @param openIndexH the bench's index summed over the hours of that day
 * @param openH hours of that day that were seen
 * @param bright those of them that were brighter than usual; null in a state that kept none
 */
public record Share(
    double log,
    double trendPerDay,
    double dayVar,
    double indexLog,
    double squares,
    double products,
    int days,
    double openLostG,
    double openIndexH,
    double openH,
    BrightHours bright) {
  /** Nothing learned. */
  public static final Share NONE = new Share(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, BrightHours.NONE);

  private static final double DAY_H = 24;

  /** Days that level and mean span: between a watering's cycle and growth. */
  private static final double MEMORY_DAYS = 7;

  private static final double SLOPE_MEMORY_DAYS = 30;

  /** So much must the index have varied before the slope counts for half. */
  private static final double SLOPE_FROM = 2;

  private static final double TREND_KEPT = 0.95;
  private static final double TREND_STEP = 0.02;

  /** Fewer days say little of a share. */
  private static final int LEAST_DAYS = 4;

  /** No cup's day scatters by less, whatever few days showed. */
  private static final double LEAST_DAY_SD = 0.05;

  /** However long it was learned, the next days' weather is another: the level errs by this. */
  private static final double LEAST_LEVEL_SD = 0.05;

  /** A dim day counts at least, and a bright one at most, so many times a usual one. */
  private static final double LEAST_WEIGHT = 0.2;

  private static final double GREATEST_WEIGHT = 2;

  /** A day's share beyond this multiple of the mean is no share: a leak, a spill. */
  private static final double GREATEST = Math.log(5);

  /**
   * After so many hours in which it was weighed.
   *
   * @param lostG by drying, g
   * @param index of the bench in those hours
   */
  public Share plus(double lostG, double index, double hours) {
    if (!(index > 0 && hours > 0)) {
      return this;
    }
    BrightHours lit = bright(index) ? hoursOfLight().seen(lostG, index * hours) : hoursOfLight();
    return open(openLostG + lostG, openIndexH + index * hours, openH + hours, lit).ended();
  }

  /**
   * After hours in which it was watered, so that its loss was not seen. A leafy cup is watered in
   * the light, where its share is greatest, and the thirstier the longer: left out, they would
   * leave it the share of its nights. So they count as the day's other bright hours do.
   */
  public Share watered(double index, double hours) {
    if (!(hours > 0 && bright(index))) {
      return this;
    }
    BrightHours lit = hoursOfLight().unseen(index * hours);
    return open(openLostG, openIndexH, openH + hours, lit).ended();
  }

  private boolean bright(double index) {
    return days > 0 && index > usualIndex();
  }

  private BrightHours hoursOfLight() {
    return bright == null ? BrightHours.NONE : bright;
  }

  private Share open(double lostG, double indexH, double hours, BrightHours lit) {
    return new Share(
        log, trendPerDay, dayVar, indexLog, squares, products, days, lostG, indexH, hours, lit);
  }

  private Share ended() {
    return openH >= DAY_H ? closed() : this;
  }

  private Share closed() {
    double lostG = openLostG + hoursOfLight().missedG();
    double indexH = openIndexH + hoursOfLight().missedIndexH();
    if (!(lostG > 0 && indexH > 0)) {
      return open(0, 0, 0, BrightHours.NONE);
    }
    double x = Math.log(lostG / indexH);
    double i = Math.log(indexH / openH);
    if (days == 0) {
      return new Share(x, 0, 0, i, 0, 0, 1, 0, 0, 0, BrightHours.NONE);
    }
    double brighter = i - indexLog;
    double expected = log + TREND_KEPT * trendPerDay + slope() * brighter;
    double off = Math.max(-GREATEST, Math.min(GREATEST, x - expected));
    double weight = Math.max(LEAST_WEIGHT, Math.min(GREATEST_WEIGHT, Math.exp(brighter)));
    // The first days are a plain mean: a fading one would cling to the first.
    double fading = Math.max(1.0 / (days + 1), 1 - Math.exp(-1 / MEMORY_DAYS));
    double step = Math.min(1, weight * fading);
    boolean settled = days >= LEAST_DAYS;
    double kept = Math.exp(-1 / SLOPE_MEMORY_DAYS);
    double product = brighter * (off + slope() * brighter);
    return new Share(
        log + TREND_KEPT * trendPerDay + step * off,
        settled ? TREND_KEPT * trendPerDay + TREND_STEP * weight * off : 0,
        (1 - step) * (dayVar + step * off * off),
        indexLog + fading * brighter,
        settled ? kept * squares + weight * brighter * brighter : 0,
        settled ? kept * products + weight * product : 0,
        days + 1,
        0,
        0,
        0,
        BrightHours.NONE);
  }

  private double slope() {
    return products / (squares + SLOPE_FROM);
  }

  /** Whether enough days were seen to reckon by. */
  public boolean known() {
    return days >= LEAST_DAYS;
  }

  /** The part itself; 1 before the first day. */
  public double part() {
    return Math.exp(log);
  }

  /** The bench's index as it was of late while the share was learned; 1 before the first day. */
  public double usualIndex() {
    return Math.exp(indexLog);
  }

  /**
   * What the part has become: the trend goes on and fades.
   *
   * @param unseenDays since it was learned last
   * @param lately mean index of the bench over the last day or so, above 0
   */
  public double partNow(double unseenDays, double lately) {
    double faded = Math.exp(unseenDays * Math.log(TREND_KEPT));
    double grown = trendPerDay * TREND_KEPT * (1 - faded) / (1 - TREND_KEPT);
    double off = grown + slope() * (Math.log(lately) - indexLog);
    return Math.exp(log + Math.max(-GREATEST, Math.min(GREATEST, off)));
  }

  /** Standard deviation of one day's share, as a part of it. */
  public double dayScatter() {
    return Math.max(LEAST_DAY_SD, Math.sqrt(dayVar));
  }

  /** Variance of the level itself, as a part of it squared: so well do that many days tell it. */
  public double levelVar() {
    double told = Math.min(days, 2 * MEMORY_DAYS);
    return Math.max(LEAST_LEVEL_SD * LEAST_LEVEL_SD, dayScatter() * dayScatter() / told);
  }
}

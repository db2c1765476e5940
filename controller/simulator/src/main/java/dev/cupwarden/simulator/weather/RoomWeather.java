package dev.cupwarden.simulator.weather;

import dev.cupwarden.core.setup.Place;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.world.Room;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.SplittableRandom;

/**
 * The air of one room over a winter, asked in order of time.
 *
 * <p>Outside: a yearly cosine with a day-to-day memory. Inside: a thermostat by day, heating off at
 * night, warmth from the sun, now and then a cold spell of one to four days in which the room
 * follows the outside. Humidity is the outside's vapour with some from living in the house. Light
 * is a window's, by the sun's height (FAO-56 eq. 24 for its declination), with a small lamp by day.
 * The figures are the project's choice of a moderate climate.
 */
public final class RoomWeather implements Room {
  private static final double SPELL_PER_DAY = 1 / 30.0;
  private static final double ROOT_LAG_H = 2.5;

  private final Place place;
  private final Instant start;
  private final DayOutside[] days;
  private final double dayC;
  private final double indoorVapourKpa;
  private final double lampUmol;
  private double roomC;
  private double rootC;
  private Instant last;

  /** For so many days from the start. */
  public RoomWeather(Place place, Instant start, int days, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    this.place = place;
    this.start = start;
    this.dayC = 18.5 + 3 * random.nextDouble();
    this.indoorVapourKpa = 0.25 + 0.25 * random.nextDouble();
    this.lampUmol = 50 + 70 * random.nextDouble();
    this.days = drawDays(days + 2, random);
    this.roomC = dayC - 2;
    this.rootC = dayC - 2;
    this.last = start;
  }

  private DayOutside[] drawDays(int count, SplittableRandom random) {
    DayOutside[] drawn = new DayOutside[count];
    int dayOfYear = start.atZone(place.zone()).getDayOfYear();
    double anomaly = 0;
    int cold = 0;
    for (int i = 0; i < count; i++) {
      double season = -StrictMath.cos(2 * Math.PI * (dayOfYear + i - 20) / 365.25);
      anomaly = 0.75 * anomaly + 2.2 * random.nextGaussian();
      double cloud = Math.min(1, 1.3 * random.nextDouble());
      boolean begins = random.nextDouble() < SPELL_PER_DAY;
      int length = 1 + random.nextInt(4);
      cold = begins && i > 3 ? length : Math.max(0, cold - 1);
      double mean = 9.5 + 7 * season * Math.signum(place.latitudeDeg()) + anomaly;
      drawn[i] = new DayOutside(mean, cloud, cold == 0);
    }
    return drawn;
  }

  @Override
  public RoomAir at(Instant at) {
    double h = Duration.between(last, at).toSeconds() / 3600.0;
    last = at;
    int day = (int) Math.min(days.length - 1L, ChronoUnit.DAYS.between(start, at));
    DayOutside outside = days[day];
    ZonedDateTime clock = at.atZone(place.zone());
    double hour = clock.getHour() + clock.getMinute() / 60.0;
    double sun = sunUmol(at, clock.getDayOfYear(), outside.cloud());
    double outsideC = outside.meanC() + 3 * StrictMath.cos(2 * Math.PI * (hour - 15) / 24);
    warmRoom(h, hour, outside.heated(), outsideC, sun);
    boolean lamp = hour >= 8 && hour < 20;
    double vapourKpa = 0.85 * RoomAir.saturationKpa(outsideC) + indoorVapourKpa;
    double rh = 100 * vapourKpa / RoomAir.saturationKpa(roomC);
    return RoomAir.of(roomC, Math.max(15, Math.min(95, rh)), rootC, sun + (lamp ? lampUmol : 0));
  }

  private void warmRoom(double h, double hour, boolean heated, double outsideC, double sun) {
    boolean on = heated && hour >= 6.5 && hour < 22;
    double coldestC = heated ? outsideC + 6 : outsideC + 3;
    double targetC = on ? Math.max(dayC, coldestC) : coldestC;
    double lagH = on ? 1.5 : 16;
    roomC += (targetC + sun / 60 - roomC) * Math.min(1, h / lagH);
    // Evaporation keeps the mix a little cooler than the air.
    rootC += (roomC - 0.7 - rootC) * Math.min(1, h / ROOT_LAG_H);
  }

  private double sunUmol(Instant at, int dayOfYear, double cloud) {
    double latitude = StrictMath.toRadians(place.latitudeDeg());
    double declination = 0.409 * StrictMath.sin(2 * Math.PI * dayOfYear / 365 - 1.39);
    double utcHour = at.getEpochSecond() % 86_400 / 3600.0;
    double angle = Math.PI / 12 * (utcHour + place.longitudeDeg() / 15 - 12);
    double height =
        StrictMath.sin(latitude) * StrictMath.sin(declination)
            + StrictMath.cos(latitude) * StrictMath.cos(declination) * StrictMath.cos(angle);
    return height <= 0 ? 0 : 500 * height * (1 - 0.75 * cloud);
  }
}

package dev.cupwarden.core.messages;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What is read once for the whole bench, and between which values it can be true at all. The ranges
 * are those of a room in which cuttings live, and of where they are carried out to, widened to what
 * the sensors can show.
 */
public enum AmbientReading {
  AIR_C(-60, 80, "C"),
  RH_PCT(0, 100, "%"),
  ROOT_C(-60, 80, "C"),
  OUTDOOR_C(-60, 80, "C"),
  /** Full sun is near 2000. */
  LIGHT(0, 4000, "umol m-2 s-1");

  private final double least;
  private final double most;
  private final String unit;

  AmbientReading(double least, double most, String unit) {
    this.least = least;
    this.most = most;
    this.unit = unit;
  }

  /** Its name in messages. */
  public String field() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The one of that name, if there is one. */
  public static Optional<AmbientReading> of(String field) {
    return Arrays.stream(values()).filter(reading -> reading.field().equals(field)).findFirst();
  }

  /** The names of all. */
  public static List<String> fields() {
    return Arrays.stream(values()).map(AmbientReading::field).toList();
  }

  double checked(double value) throws LineRefused {
    return ObservationDraft.within(field(), value, least, most, unit);
  }
}

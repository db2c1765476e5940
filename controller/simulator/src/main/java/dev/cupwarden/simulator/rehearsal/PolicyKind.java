package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.SetupException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The policies one can compare. */
public enum PolicyKind {
  /** The controller's own decisions. */
  CUPWARDEN,
  /** The same small pass every day. */
  TIMER,
  /** A pass whenever the weight is below a fixed one. */
  THRESHOLD,
  /** A person who looks every second or third day. */
  BY_HAND,
  /** Knows the simulator's truth: the limit of what can be reached. */
  ORACLE;

  /** As it is written on the command line. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The policy of that word, if there is one. */
  public static Optional<PolicyKind> of(String word) {
    return Arrays.stream(values()).filter(kind -> kind.word().equals(word)).findFirst();
  }

  Policy make(Scene scene, Stand stand, long seed) throws SetupException {
    return switch (this) {
      case CUPWARDEN -> new CupwardenPolicy(scene.bench(), scene.names());
      case TIMER -> new TimerPolicy(scene);
      case THRESHOLD -> new ThresholdPolicy(scene);
      case BY_HAND -> new ByHandPolicy(scene, seed);
      case ORACLE -> new OraclePolicy(scene, stand::placeOf);
    };
  }
}

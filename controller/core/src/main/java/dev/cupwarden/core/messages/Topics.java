package dev.cupwarden.core.messages;

/**
 * The topics of one bench, all below {@code cupwarden/v1/<bench>/}.
 *
 * @param bench name of the bench: no slash, plus or hash
 */
public record Topics(String bench) {
  /** What all topics of all benches begin with. */
  public static final String ROOT = "cupwarden/v1/";

  /** Retained, also the last will: {@link Presence}. */
  public String presence() {
    return ROOT + bench + "/presence";
  }

  /** Not retained: {@link Beat}. */
  public String beat() {
    return ROOT + bench + "/beat";
  }

  /** Not retained: a SenML pack (RFC 8428), a list of {@link SenmlRecord}. */
  public String readings() {
    return ROOT + bench + "/readings";
  }

  /** Retained, one per cup: {@link CupStatus}. */
  public String cup(String cup) {
    return ROOT + bench + "/cups/" + cup;
  }

  /** Retained: {@link BenchStatus}. */
  public String benchStatus() {
    return ROOT + bench + "/bench";
  }

  /** Retained: {@link BenchSetup}. */
  public String setup() {
    return ROOT + bench + "/setup";
  }

  /** Not retained: {@link Event}. */
  public String events() {
    return ROOT + bench + "/events";
  }

  /** From the host, never retained: an order with {@code by}, {@code issued}, {@code expires}. */
  public String orders() {
    return ROOT + bench + "/orders";
  }

  /** Not retained: {@link Receipt}. */
  public String receipts() {
    return ROOT + bench + "/receipts";
  }

  /** From the host, retained: {@link Kept}. */
  public String kept() {
    return ROOT + bench + "/kept";
  }

  /** The topics of every bench, for a subscription. */
  public static String everything() {
    return ROOT + "+/#";
  }
}

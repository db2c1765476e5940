package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.annotation.JsonProperty;

/** Alerts of one code, held against the truth; conditions come from the truth alone. */
public final class AlertCount {
  @JsonProperty int raised;
  @JsonProperty int judged;

  @JsonProperty("true")
  int trueOnes;

  @JsonProperty int conditions;
  @JsonProperty int missed;

  void add(AlertCount other) {
    raised += other.raised;
    judged += other.judged;
    trueOnes += other.trueOnes;
    conditions += other.conditions;
    missed += other.missed;
  }

  public int raised() {
    return raised;
  }

  /** Raised without the condition. */
  public int falseOnes() {
    return judged - trueOnes;
  }

  /** Times that the condition came to hold. */
  public int conditions() {
    return conditions;
  }

  /** Of those, never told within 48 h. */
  public int missed() {
    return missed;
  }
}

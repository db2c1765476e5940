package dev.cupwarden.core.alerts;

import java.time.Instant;

/**
 * An alert that stands.
 *
 * @param code its name
 * @param cup whose; null for the whole bench
 * @param state {@value #RAISED}, or {@code together} where it is told as a part of its bench's
 * @param since when it first stood
 * @param tank which; null where it is of no tank
 * @param told what a person last heard of it; null where a journal does not say
 */
public record OpenAlert(
    String code, String cup, String state, Instant since, String tank, LastTold told) {

  static final String RAISED = "raised";

  /** Whether this program has that code and state; older ones had a third, {@code warned}. */
  boolean known() {
    boolean stateKnown = state.equals(RAISED) || state.equals(AlertGrouping.STATE);
    return stateKnown && AlertCode.find(code).isPresent();
  }

  /** The key under which it stands. */
  String key() {
    return Subject.key(code, cup, tank);
  }

  /** When a person last heard of it; of an older journal's alerts only their beginning is known. */
  Instant toldAt() {
    return told == null ? since : told.at();
  }

  /** The same, not to be told again before then. */
  public OpenAlert later(Instant until) {
    LastTold known = told == null ? new LastTold(since, null, null) : told;
    return new OpenAlert(
        code, cup, state, since, tank, new LastTold(known.at(), known.notice(), until));
  }
}

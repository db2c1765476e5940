package dev.cupwarden.core.limits;

/** One veto or cap on a pass: a name and a test. What may pass it stands in {@link Limits}. */
public interface Limit {
  /** The limit's name, as the contract gives it. */
  String code();

  /** What it says of that pass. */
  Ruling rule(Case pass);
}

package dev.cupwarden.core.limits;

/** One veto or cap on a pass: a test. Its name and all else about it stand in {@link LimitCode}. */
interface Limit {
  /** What it says of that pass. */
  Ruling rule(Case pass);
}

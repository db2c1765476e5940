package dev.cupwarden.host.ingest;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.host.store.Readings.Reading;
import java.util.List;
import java.util.Optional;

/** A message that was understood, with the bench that said it. */
sealed interface BenchMessage {
  String bench();

  /** Values measured at one time. */
  record Measured(String bench, List<Reading> readings) implements BenchMessage {}

  /** What a cup is doing. */
  record Cup(String bench, CupStatus status) implements BenchMessage {}

  /** The retained status of a cup was emptied: it is off the bench. */
  record CupGone(String bench, String cup) implements BenchMessage {}

  /** How the bench as a whole is. */
  record Bench(String bench, BenchStatus status) implements BenchMessage {}

  /** How the bench is set up. */
  record SetUp(String bench, BenchSetup setup) implements BenchMessage {}

  /** Whether the controller is there. */
  record Here(String bench, Presence presence) implements BenchMessage {}

  /**
   * Something happened.
   *
   * @param alert the event's data, where its kind is {@code alert}
   * @param receipt likewise for {@code receipt}
   */
  record Happened(String bench, Event event, Optional<AlertNotice> alert, Optional<Receipt> receipt)
      implements BenchMessage {}

  /** What became of an order. */
  record Answered(String bench, Receipt receipt) implements BenchMessage {}

  /** The loop of the controller lives, or says what it hangs at. */
  record Beating(String bench, Beat beat) implements BenchMessage {}

  /** A host speaks, this one or another: nothing to store. */
  record ByAHost(String bench) implements BenchMessage {}
}

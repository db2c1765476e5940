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

  /** Hands it to what takes its kind: a kind that nobody takes does not compile. */
  void to(Taker taker);

  /** Takes each kind of message. */
  interface Taker {
    void measured(Measured said);

    void cup(Cup said);

    void cupGone(CupGone said);

    void bench(Bench said);

    void setUp(SetUp said);

    void here(Here said);

    void happened(Happened said);

    void answered(Answered said);

    void beating(Beating said);

    void byAHost(ByAHost said);
  }

  /** Values measured at one time. */
  record Measured(String bench, List<Reading> readings) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.measured(this);
    }
  }

  /** What a cup is doing. */
  record Cup(String bench, CupStatus status) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.cup(this);
    }
  }

  /** The retained status of a cup was emptied: it is off the bench. */
  record CupGone(String bench, String cup) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.cupGone(this);
    }
  }

  /** How the bench as a whole is. */
  record Bench(String bench, BenchStatus status) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.bench(this);
    }
  }

  /** How the bench is set up. */
  record SetUp(String bench, BenchSetup setup) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.setUp(this);
    }
  }

  /** Whether the controller is there. */
  record Here(String bench, Presence presence) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.here(this);
    }
  }

  /**
   * Something happened.
   *
   * @param alert the event's data, where its kind is {@code alert}
   * @param receipt likewise for {@code receipt}
   */
  record Happened(String bench, Event event, Optional<AlertNotice> alert, Optional<Receipt> receipt)
      implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.happened(this);
    }
  }

  /** What became of an order. */
  record Answered(String bench, Receipt receipt) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.answered(this);
    }
  }

  /** The loop of the controller lives, or says what it hangs at. */
  record Beating(String bench, Beat beat) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.beating(this);
    }
  }

  /** A host speaks, this one or another: nothing to store. */
  record ByAHost(String bench) implements BenchMessage {
    @Override
    public void to(Taker taker) {
      taker.byAHost(this);
    }
  }
}

package dev.cupwarden.app.service;

import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;

/**
 * What the loop's own thread noted last of itself. Whoever says a beat reads it here and can make
 * nothing better of it: where the loop hangs, the numbers stand still.
 */
public final class LoopProgress {
  private record Note(long tick, Beat.Doing doing, long sinceNanos) {}

  private final String instance = UUID.randomUUID().toString();
  private final double periodS;
  private final int startsInVain;
  private final AtomicReference<Note> last =
      new AtomicReference<>(new Note(0, Beat.Doing.STARTING, System.nanoTime()));

  /**
   * @param period from one tick to the next, in real time
   * @param startsInVain how many starts just before this one came to no tick
   */
  public LoopProgress(Duration period, int startsInVain) {
    this.periodS = Math.max(1e-3, Elapsed.seconds(period));
    this.startsInVain = startsInVain;
  }

  /** The loop begins something else. */
  public void at(Beat.Doing doing) {
    last.updateAndGet(was -> new Note(was.tick(), doing, System.nanoTime()));
  }

  /** A tick is over, all of it done. */
  public void finished() {
    last.updateAndGet(was -> new Note(was.tick() + 1, Beat.Doing.WAITING, System.nanoTime()));
  }

  /** Of this process. */
  public String instance() {
    return instance;
  }

  /** What there is to say at that time. */
  public Beat beat(Instant now) {
    Note note = last.get();
    double forS = Math.rint((System.nanoTime() - note.sinceNanos()) / 1e7) / 100;
    return new Beat(now, instance, note.tick(), note.doing(), forS, periodS, startsInVain);
  }
}

package dev.cupwarden.board;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;

/**
 * The leak sensor. It is looked at each second while a pass is given and for ten minutes after, for
 * water needs no five minutes to leave a tray; the pass ends at the first look that is not a dry
 * one. What was seen is kept until the next scan tells it, be it dry again by then.
 */
final class LeakLine {
  static final Duration LOOK_EVERY = Duration.ofSeconds(1);
  static final Duration LOOKS_ON = Duration.ofMinutes(10);

  private static final String WET = "Water where none belongs: the leak sensor is wet.";

  private final Optional<WaterSwitch> contact;
  private final Pace pace;
  private final AtomicBoolean wet = new AtomicBoolean();
  private final AtomicReference<String> unread = new AtomicReference<>();
  private Consumer<String> stopPass;
  private long restsAtNanos;
  private Pace.Repeating looking;

  /** With its contact, if the bench has one. */
  LeakLine(Optional<WaterSwitch> contact, Pace pace) {
    this.contact = contact;
    this.pace = pace;
  }

  /**
   * What a scan tells.
   *
   * @param wet whether any look since the last scan, or this one, saw water
   * @param unread why a look could not see; none where all could
   */
  record Seen(boolean wet, Optional<String> unread) {}

  /** Looks, and tells of all looks since it told last. */
  Seen tell() {
    look();
    return new Seen(wet.getAndSet(false), Optional.ofNullable(unread.getAndSet(null)));
  }

  /** Looks; why nothing may be pumped, if the sensor is not dry. */
  Optional<String> look() {
    if (contact.isEmpty()) {
      return Optional.empty();
    }
    try {
      if (contact.get().closed()) {
        wet.set(true);
        return Optional.of(WET);
      }
      return Optional.empty();
    } catch (ChipException | RuntimeException e) {
      // Whatever it is, the looks must go on; and who does not see does not see it dry.
      unread.set(e.getMessage());
      return Optional.of("The leak sensor cannot be read: %s".formatted(e.getMessage()));
    }
  }

  /**
   * A pass begins.
   *
   * @param stop ends it, from another thread, with the reason
   */
  synchronized void passBegins(Consumer<String> stop) {
    stopPass = stop;
    startLooking();
  }

  /** It has ended, or may have before this start. */
  synchronized void passEnded() {
    stopPass = null;
    restsAtNanos = pace.nanos() + LOOKS_ON.toNanos();
    startLooking();
  }

  private void startLooking() {
    if (looking == null && contact.isPresent()) {
      looking = pace.every(LOOK_EVERY, this::lookAgain);
    }
  }

  private void lookAgain() {
    Optional<String> found = look();
    Consumer<String> stop = stopOrRest();
    if (found.isPresent() && stop != null) {
      stop.accept(found.get());
    }
  }

  /** What stops the pass under way; null where there is none. */
  private synchronized Consumer<String> stopOrRest() {
    if (stopPass == null && pace.nanos() >= restsAtNanos) {
      close();
    }
    return stopPass;
  }

  /** Looks no more by itself. */
  synchronized void close() {
    if (looking != null) {
      looking.close();
      looking = null;
    }
  }
}

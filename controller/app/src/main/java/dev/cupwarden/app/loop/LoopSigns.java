package dev.cupwarden.app.loop;

import dev.cupwarden.core.messages.Beat;

/** Hears of the loop's progress, on the loop's own thread. */
public interface LoopSigns {
  /** Whom nothing is told. */
  LoopSigns NOBODY =
      new LoopSigns() {
        @Override
        public void moved() {}

        @Override
        public void over(boolean well) {}
      };

  /** Within a tick, something was done. */
  void moved();

  /** The loop turns to something else. */
  default void doing(Beat.Doing what) {}

  /** A tick is over; {@code well}: all of it was done. */
  void over(boolean well);
}

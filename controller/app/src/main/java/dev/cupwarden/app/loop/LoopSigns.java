package dev.cupwarden.app.loop;

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

  /** A tick is over; {@code well}: all of it was done. */
  void over(boolean well);
}

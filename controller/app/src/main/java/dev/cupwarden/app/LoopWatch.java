package dev.cupwarden.app;

import dev.cupwarden.app.journal.FailedStarts;
import dev.cupwarden.app.loop.BenchLoop;
import dev.cupwarden.app.loop.LoopSigns;
import dev.cupwarden.app.service.HardwareWatchdog;
import dev.cupwarden.app.service.LifeSigns;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.app.service.NotifySocket;
import dev.cupwarden.app.service.Watchdogs;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.board.RealPace;
import dev.cupwarden.core.messages.Beat;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;

/** The watchdogs over a loop: they bite when it hangs, and only a meant end calls them off. */
final class LoopWatch implements AutoCloseable {
  private final RealPace real;
  private final Watchdogs watchdogs;

  private LoopWatch(RealPace real, Watchdogs watchdogs) {
    this.real = real;
    this.watchdogs = watchdogs;
  }

  /** Watches a loop that has not begun, and the board's beat. */
  static LoopWatch over(
      BenchLoop loop,
      BenchBoard board,
      Duration tick,
      Optional<HardwareWatchdog> hardware,
      LoopProgress progress,
      FailedStarts starts) {
    RealPace real = new RealPace();
    LifeSigns signs = new LifeSigns(tick, loop.settling(), real.nanos());
    board.onBeat(() -> signs.beat(real.nanos()));
    loop.tell(
        new LoopSigns() {
          @Override
          public void moved() {
            signs.moved(real.nanos());
          }

          @Override
          public void doing(Beat.Doing what) {
            progress.at(what);
          }

          @Override
          public void over(boolean well) {
            if (well) {
              starts.succeeded();
              progress.finished();
              signs.finished(real.nanos());
            } else {
              signs.failed();
            }
          }
        });
    return new LoopWatch(real, new Watchdogs(signs, real, NotifySocket.ofEnvironment(), hardware));
  }

  /** The device of the board's own watchdog, where one is named. */
  static Optional<HardwareWatchdog> device(Optional<Path> named) throws BoardException {
    try {
      return named.isPresent() ? Optional.of(HardwareWatchdog.open(named.get())) : Optional.empty();
    } catch (IOException e) {
      throw new BoardException(
          "The watchdog %s cannot be opened: %s".formatted(named.get(), e.getMessage()), e);
    }
  }

  @Override
  public void close() throws IOException {
    try {
      watchdogs.close();
    } finally {
      real.close();
    }
  }
}

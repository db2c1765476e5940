package dev.cupwarden.app.loop;

import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Cup;
import java.time.Duration;
import java.util.SortedMap;

/** A bench that is only watched: it is read, and no pass reaches its outputs, whoever asks. */
final class WatchedHardware implements BenchHardware {
  private final BenchHardware bench;

  WatchedHardware(BenchHardware bench) {
    this.bench = bench;
  }

  @Override
  public BoardReadings read() {
    return bench.read();
  }

  @Override
  public DoseOutcome give(AllowedPass pass) {
    return new DoseOutcome.Failed(0, 0, "The bench is only watched");
  }

  @Override
  public void allOff() {
    bench.allOff();
  }

  @Override
  public void stand(SortedMap<String, Cup.Wiring> cups) {
    bench.stand(cups);
  }

  @Override
  public void ranBefore(Duration ago, double ml) {
    bench.ranBefore(ago, ml);
  }
}

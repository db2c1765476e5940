package dev.cupwarden.app.loop;

import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Cup;
import java.time.Duration;
import java.util.SortedMap;

/** What the loop needs of a bench's electronics. */
public interface BenchHardware {
  /** One scan of all sensors; what could not be read is missing and named among the faults. */
  BoardReadings read();

  /** Gives a pass and waits for its end; all outputs are off afterwards. */
  DoseOutcome give(AllowedPass pass);

  /** Pump off, then every valve shut; from any thread. */
  void allOff();

  /** From now on these cups stand on the bench, with their parts of the board, by name. */
  default void stand(SortedMap<String, Cup.Wiring> cups) {}

  /**
   * Tells of what the pump moved before this start, for on-time caps that must outlive a restart;
   * electronics without such caps need not remember it.
   */
  default void ranBefore(Duration ago, double ml) {}

  /** The drivers, on whatever context they were opened. */
  static BenchHardware of(BenchBoard board) {
    return new OnBoard(board);
  }

  /** The drivers as they are; a test overrides what it wants to see. */
  class OnBoard implements BenchHardware {
    private final BenchBoard board;

    OnBoard(BenchBoard board) {
      this.board = board;
    }

    @Override
    public BoardReadings read() {
      return board.read();
    }

    @Override
    public DoseOutcome give(AllowedPass pass) {
      return board.give(pass);
    }

    @Override
    public void allOff() {
      board.allOff();
    }

    @Override
    public void stand(SortedMap<String, Cup.Wiring> cups) {
      board.stand(cups);
    }

    @Override
    public void ranBefore(Duration ago, double ml) {
      board.ranBefore(ago, ml);
    }
  }
}

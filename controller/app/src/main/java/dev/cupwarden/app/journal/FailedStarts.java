package dev.cupwarden.app.journal;

import dev.cupwarden.app.SmallFile;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * How many starts, one after the other, ended without a finished tick: a file beside the journal,
 * written before anything is taken up that could end the program. With it stands the order that had
 * waited longest at the first of them: as long as no tick is finished it still does.
 */
public final class FailedStarts {
  /** Our choice: twice may be a power cut and another. */
  public static final int MOST = 3;

  private record Count(int inVain, String order, int withIt) {}

  private static final Count NONE = new Count(0, null, 0);
  private static final Logger log = LoggerFactory.getLogger(FailedStarts.class);

  private final Path file;
  private final Count before;
  private Count now;

  private FailedStarts(Path file, Count before) {
    this.file = file;
    this.before = before;
    this.now = before;
  }

  /** A start begins; until a tick is finished it counts as one in vain. */
  public static FailedStarts begin(Path journal) {
    Path file = journal.resolveSibling(journal.getFileName() + ".starts");
    FailedStarts starts = new FailedStarts(file, read(file));
    starts.put(
        new Count(starts.before.inVain() + 1, starts.before.order(), starts.before.withIt()));
    return starts;
  }

  /** Those before this one. */
  public int before() {
    return before.inVain();
  }

  /**
   * The start takes up what waits.
   *
   * @param oldest the order that has waited longest
   * @return whether so many starts before this one had it in hand that it should be set aside
   */
  public boolean takesUp(Optional<String> oldest) {
    String order = oldest.orElse(null);
    boolean same = order != null && order.equals(before.order());
    int withIt = same ? before.withIt() : 0;
    boolean tooOften = withIt >= MOST;
    put(new Count(now.inVain(), tooOften ? null : order, tooOften ? 0 : withIt + 1));
    return tooOften;
  }

  /** A tick was finished: none was in vain. */
  public void succeeded() {
    if (!now.equals(NONE)) {
      now = NONE;
      try {
        Files.deleteIfExists(file);
      } catch (IOException e) {
        log.warn("{} cannot be deleted: {}", file, e.getMessage());
      }
    }
  }

  /** It ends before its first tick because it was told to: it does not count. */
  public void calledOff() {
    if (!now.equals(NONE)) {
      put(before);
    }
  }

  private void put(Count count) {
    now = count;
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      // In the file's place at once: a start killed while it writes must not forget those before.
      Path next = file.resolveSibling(file.getFileName() + ".next");
      PrivateFile.make(next);
      Files.writeString(next, Json.written(count), StandardCharsets.UTF_8);
      Files.move(next, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      // What cannot be counted is no reason not to start.
      log.warn("{} cannot be written: {}", file, e.getMessage());
    }
  }

  private static Count read(Path file) {
    try {
      Count read = Json.MAPPER.readValue(SmallFile.text(file), Count.class);
      return read == null ? NONE : read;
    } catch (IOException none) {
      return NONE;
    }
  }
}

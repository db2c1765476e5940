package dev.cupwarden.app;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;

/** Where a command's {@code --bench} comes from: the one place that opens a bench file. */
public final class BenchSource {
  private BenchSource() {}

  /**
   * Reads and checks a bench file, the lines of its cups too.
   *
   * @throws SetupException with one sentence, also where there is no file to be read
   */
  public static Bench load(Path file) throws SetupException {
    return tick(file, Tick.Rounds.ONE_A_TICK).bench();
  }

  /**
   * The tick of the bench that a file describes.
   *
   * @throws SetupException likewise
   */
  public static Tick tick(Path file, Tick.Rounds rounds) throws SetupException {
    BenchText text = BenchText.of(file.toString(), bytes(file));
    Bench bench = text.read();
    try {
      return new Tick(bench, Optional.of(text), rounds);
    } catch (SetupException unfit) {
      throw new SetupException(file + " " + unfit.getMessage());
    }
  }

  /**
   * The text of a bench file that {@link #load} takes, for the journal.
   *
   * @throws SetupException likewise
   */
  public static String text(Path file) throws SetupException {
    return new String(bytes(file), StandardCharsets.UTF_8);
  }

  /** One byte more than is allowed at most, so that the check of the size sees it. */
  private static byte[] bytes(Path file) throws SetupException {
    if (Files.isDirectory(file)) {
      throw new SetupException(file + ": is a directory: expected a bench file");
    }
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(BenchFile.MOST_BYTES + 1);
    } catch (NoSuchFileException missing) {
      throw new SetupException(file + ": there is no such file: expected a bench file");
    } catch (AccessDeniedException denied) {
      throw new SetupException(file + ": may not be read by this user");
    } catch (IOException unreadable) {
      throw new SetupException(file + ": cannot be read: " + unreadable.getMessage());
    }
  }
}

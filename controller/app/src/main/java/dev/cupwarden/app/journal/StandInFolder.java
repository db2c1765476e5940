package dev.cupwarden.app.journal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Where a stand-in for a journal lies while a run lasts. A process that is killed leaves it behind;
 * the next start takes away what nobody holds any more.
 */
public final class StandInFolder implements AutoCloseable {
  private static final String PREFIX = "cupwarden-stand-in";
  private static final String JOURNAL = "journal.db";

  /** One without a lock is another program version's, or is being made at this moment. */
  private static final Duration SURELY_LEFT = Duration.ofHours(1);

  private static final Logger log = LoggerFactory.getLogger(StandInFolder.class);

  private final Path folder;
  private final JournalLock lock;

  private StandInFolder(Path folder, JournalLock lock) {
    this.folder = folder;
    this.lock = lock;
  }

  /** A new one; only its owner may look into it. */
  static StandInFolder make() throws JournalException {
    try {
      Path folder = Files.createTempDirectory(PREFIX);
      return new StandInFolder(folder, JournalLock.take(folder.resolve(JOURNAL)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Path journal() {
    return folder.resolve(JOURNAL);
  }

  /** Takes away those that processes which ended left in the same place. */
  static void sweep() {
    Path place = Path.of(System.getProperty("java.io.tmpdir"));
    try (DirectoryStream<Path> all = Files.newDirectoryStream(place, PREFIX + "*")) {
      for (Path folder : all) {
        if (isLeft(folder)) {
          delete(folder);
        }
      }
    } catch (IOException e) {
      log.warn("Stand-in journals in {} cannot be looked for: {}", place, e.getMessage());
    }
  }

  private static boolean isLeft(Path folder) throws IOException {
    Path journal = folder.resolve(JOURNAL);
    if (!Files.isDirectory(folder) || !Files.isWritable(folder)) {
      return false;
    }
    if (!Files.exists(JournalLock.file(journal))) {
      Instant touched = Files.getLastModifiedTime(folder).toInstant();
      return touched.isBefore(Instant.now().minus(SURELY_LEFT));
    }
    try (JournalLock free = JournalLock.take(journal)) {
      return true;
    } catch (JournalException held) {
      return false;
    }
  }

  private static void delete(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      log.warn("The stand-in journal in {} cannot be deleted: {}", folder, e.getMessage());
    }
  }

  @Override
  public void close() {
    lock.close();
    delete(folder);
  }
}

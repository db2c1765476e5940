package dev.cupwarden.app.journal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One process a journal: two would each water by their own state, and each write over the other's.
 * The kernel lets go of the lock when the process ends, however it ends; the file stays.
 */
public final class JournalLock implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(JournalLock.class);

  private final FileChannel channel;

  private JournalLock(FileChannel channel) {
    this.channel = channel;
  }

  /**
   * Takes it. Where no file can be made beside the journal there is none: the journal, which cannot
   * be written there either, then says why.
   *
   * @throws JournalException when another process holds it
   */
  public static JournalLock take(Path journal) throws JournalException {
    Path file = file(journal);
    FileChannel channel = null;
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      PrivateFile.make(file);
      channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock = channel.tryLock();
      if (lock != null) {
        return new JournalLock(channel);
      }
    } catch (OverlappingFileLockException ours) {
      log.debug("The lock {} is held by this very process", file);
    } catch (IOException e) {
      log.warn("The lock {} cannot be made: {}", file, e.getMessage());
      return new JournalLock(channel);
    }
    close(channel);
    throw new JournalException(
        JournalException.Trouble.IN_USE,
        "journal: %s is in use by another controller, which holds %s; end that one first"
            .formatted(journal, file),
        null);
  }

  static Path file(Path journal) {
    return journal.resolveSibling(journal.getFileName() + ".lock");
  }

  private static void close(FileChannel channel) {
    try {
      if (channel != null) {
        channel.close();
      }
    } catch (IOException e) {
      log.debug("A lock's file cannot be closed: {}", e.getMessage());
    }
  }

  @Override
  public void close() {
    close(channel);
  }
}

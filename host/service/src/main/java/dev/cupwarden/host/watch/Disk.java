package dev.cupwarden.host.watch;

import dev.cupwarden.host.store.Database;
import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** How much room is left where the store lies. */
@FunctionalInterface
public interface Disk {
  /** Now; empty where it cannot be seen. */
  Optional<Room> room();

  /**
   * Room on a disk.
   *
   * @param freeBytes for this user
   * @param bytes of the whole disk
   */
  record Room(long freeBytes, long bytes) {}

  /** That of a SQLite store; a PostgreSQL server's cannot be seen from here. */
  static Disk of(Database database) {
    Logger log = LoggerFactory.getLogger(Disk.class);
    if (database.file().isEmpty()) {
      log.info("The disk of the PostgreSQL server is not watched: it cannot be seen from here");
      return Optional::empty;
    }
    Path folder = database.file().get().toAbsolutePath().getParent();
    return () -> {
      try {
        FileStore disk = Files.getFileStore(folder);
        return Optional.of(new Room(disk.getUsableSpace(), disk.getTotalSpace()));
      } catch (IOException unseen) {
        log.debug("how full the disk is cannot be seen", unseen);
        return Optional.empty();
      }
    };
  }
}

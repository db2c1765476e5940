package dev.cupwarden.app.journal;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/**
 * A file that only the controller's own user may read or write: what is watered when, and by whose
 * word, is nobody else's. SQLite gives its log the rights of the journal itself.
 */
public final class PrivateFile {
  private static final Set<PosixFilePermission> OWNER =
      PosixFilePermissions.fromString("rw-------");

  private PrivateFile() {}

  /** Makes it, empty, unless it is there; takes the others' rights away in either case. */
  public static void make(Path file) throws IOException {
    boolean posix = Files.getFileStore(parent(file)).supportsFileAttributeView("posix");
    if (!posix) {
      return;
    }
    try {
      Files.createFile(file, PosixFilePermissions.asFileAttribute(OWNER));
    } catch (FileAlreadyExistsException there) {
      if (!Files.getPosixFilePermissions(file).equals(OWNER)) {
        Files.setPosixFilePermissions(file, OWNER);
      }
    }
  }

  private static Path parent(Path file) {
    return file.toAbsolutePath().getParent();
  }
}

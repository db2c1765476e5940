package dev.cupwarden.host;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Files that only the user whom the host runs as may read: what is made is made so, and what others
 * may read is tightened and told. Where the file system knows no such rights nothing is done.
 */
public final class PrivateFiles {
  private static final Logger LOG = LoggerFactory.getLogger(PrivateFiles.class);
  private static final Set<PosixFilePermission> OF_A_FOLDER =
      PosixFilePermissions.fromString("rwx------");
  private static final Set<PosixFilePermission> OF_A_FILE =
      PosixFilePermissions.fromString("rw-------");
  private static final Set<PosixFilePermission> OF_OTHERS =
      PosixFilePermissions.fromString("---rwxrwx");

  /** A group may be what lets a service read a secret that belongs to root. */
  private static final Set<PosixFilePermission> OF_ALL =
      PosixFilePermissions.fromString("------rwx");

  private PrivateFiles() {}

  /**
   * A folder of the host's own, made if it is not there. One that holds something and was never a
   * host's, such as a home, keeps its rights: others may need them.
   *
   * @param sign the file by which a host's folder is known
   */
  public static void folder(Path folder, String sign) throws IOException {
    boolean ours = true;
    if (Files.isDirectory(folder)) {
      try (Stream<Path> content = Files.list(folder)) {
        ours = Files.exists(folder.resolve(sign)) || content.findAny().isEmpty();
      }
    } else {
      Files.createDirectories(folder);
      set(folder, OF_A_FOLDER);
    }
    if (ours) {
      takeAway(folder, OF_OTHERS);
    } else if (has(folder, OF_OTHERS)) {
      LOG.warn("The folder {} is open to other users; it holds more than the host's own", folder);
    }
  }

  /** A file of the host's own, made empty if it is not there. */
  public static void file(Path file) throws IOException {
    try {
      if (isPosix(file.toAbsolutePath().getParent())) {
        Files.createFile(file, PosixFilePermissions.asFileAttribute(OF_A_FILE));
      } else {
        Files.createFile(file);
      }
    } catch (FileAlreadyExistsException there) {
      LOG.trace("kept as it is", there);
    }
    takeAway(file, OF_OTHERS);
  }

  /** A file of the host's own, if it is there. */
  public static void fileIfThere(Path file) throws IOException {
    if (Files.exists(file)) {
      takeAway(file, OF_OTHERS);
    }
  }

  /**
   * The text of a file that a person made and that holds a secret. That everybody may read it is
   * mended, or told where that is not allowed.
   */
  public static String secretIn(Path file) throws IOException {
    try {
      takeAway(file, OF_ALL);
    } catch (NoSuchFileException missing) {
      throw missing;
    } catch (IOException notOurs) {
      LOG.warn("Every user of this machine may read the secret in {}; chmod 600 it", file);
    }
    return Files.readString(file);
  }

  private static boolean isPosix(Path path) {
    return Files.getFileAttributeView(path, PosixFileAttributeView.class) != null;
  }

  private static void set(Path path, Set<PosixFilePermission> rights) throws IOException {
    if (isPosix(path)) {
      Files.setPosixFilePermissions(path, rights);
    }
  }

  private static boolean has(Path path, Set<PosixFilePermission> any) throws IOException {
    return isPosix(path)
        && Files.getPosixFilePermissions(path).stream().anyMatch(right -> any.contains(right));
  }

  private static void takeAway(Path path, Set<PosixFilePermission> rights) throws IOException {
    if (!has(path, rights)) {
      return;
    }
    Set<PosixFilePermission> left = EnumSet.noneOf(PosixFilePermission.class);
    left.addAll(Files.getPosixFilePermissions(path));
    left.removeAll(rights);
    Files.setPosixFilePermissions(path, left);
    LOG.warn("{} was open to other users of this machine; its rights are taken from them", path);
  }
}

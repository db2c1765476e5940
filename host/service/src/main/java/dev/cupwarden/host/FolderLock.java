package dev.cupwarden.host;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Held while a host uses a folder, so that no other does. The lock is the system's: it ends with
 * the process, however that ends.
 */
final class FolderLock implements AutoCloseable {
  private final FileChannel channel;

  private FolderLock(FileChannel channel) {
    this.channel = channel;
  }

  /**
   * Takes it.
   *
   * @throws HostException if another host has it, or the folder cannot be written
   */
  static FolderLock of(Path folder) {
    FileChannel channel = null;
    try {
      Files.createDirectories(folder);
      Path file = folder.resolve("host.lock");
      PrivateFiles.file(file);
      channel = FileChannel.open(file, StandardOpenOption.WRITE);
      if (isTaken(channel)) {
        channel.close();
        throw new HostException(
            "Another host is running on the folder "
                + folder
                + ": end that one first, or give this one a folder of its own.");
      }
      return new FolderLock(channel);
    } catch (IOException failed) {
      throw new HostException("The folder " + folder + " cannot be read or written.", failed);
    }
  }

  private static boolean isTaken(FileChannel channel) throws IOException {
    try {
      FileLock lock = channel.tryLock();
      return lock == null;
    } catch (OverlappingFileLockException sameProcess) {
      return true;
    }
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}

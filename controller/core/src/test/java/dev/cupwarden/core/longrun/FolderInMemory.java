package dev.cupwarden.core.longrun;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.extension.AnnotatedElementContext;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDirFactory;

/**
 * A test's folder in memory where the system has one. The computer stays on in these tests, so what
 * a process leaves behind is the same there as on a disk, without the disk's waiting.
 */
public final class FolderInMemory implements TempDirFactory {
  private static final Path MEMORY = Path.of("/dev/shm");

  @Override
  public Path createTempDirectory(AnnotatedElementContext element, ExtensionContext context)
      throws IOException {
    return Files.isWritable(MEMORY)
        ? Files.createTempDirectory(MEMORY, "cupwarden")
        : Files.createTempDirectory("cupwarden");
  }
}

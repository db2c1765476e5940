package dev.cupwarden.host.app.wire;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;

/** Processor time of processes, as Linux counts it (proc(5), /proc/pid/stat). */
final class ProcessorTime {
  /** Of a second; fixed for programs on all platforms that we know of. */
  private static final double TICKS_PER_S = 100;

  private static final int USER = 11;
  private static final int CHILDREN_OF_KERNEL = 14;

  private ProcessorTime() {}

  /** In user and kernel, with that of its children that have ended. */
  static double of(long pid) {
    try {
      String stat = Files.readString(Path.of("/proc", Long.toString(pid), "stat"));
      String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
      long ticks = 0;
      for (int field = USER; field <= CHILDREN_OF_KERNEL; field++) {
        ticks += Long.parseLong(fields[field]);
      }
      return ticks / TICKS_PER_S;
    } catch (NoSuchFileException ended) {
      return 0; // Its parent has it now.
    } catch (IOException refused) {
      throw new UncheckedIOException(refused);
    }
  }

  /** With all that have sprung from it. */
  static double ofFamily(long pid) {
    double descendants =
        ProcessHandle.of(pid).stream()
            .flatMap(ProcessHandle::descendants)
            .mapToDouble(each -> of(each.pid()))
            .sum();
    return of(pid) + descendants;
  }
}

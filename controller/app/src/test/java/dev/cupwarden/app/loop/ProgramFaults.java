package dev.cupwarden.app.loop;

import dev.cupwarden.app.loop.FaultBench.Killed;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How the program itself, its computer or its memory can fail. */
final class ProgramFaults {
  private static final Path UNIT = Path.of("src/deb/cupwarden-controller.service");

  /** As {@code Watchdogs} looks. */
  private static final Duration LOOKS = Duration.ofSeconds(5);

  private static final Duration OFF = Duration.ofMinutes(10);

  private ProgramFaults() {}

  static void add(List<FaultCases.Case> cases) {
    cases.add(
        ofProgram(
            "process killed in mid-pass, its lines stay as they are",
            bench -> {
              dies(bench, () -> {});
              startsAnew(bench, seconds("RestartSec"));
            }));
    cases.add(
        ofProgram(
            "power cut in mid-pass",
            bench -> {
              dies(bench, bench.world()::cutPower);
              startsAnew(bench, OFF);
            }));
    cases.add(
        ofProgram(
            "loop hangs in mid-pass",
            bench -> {
              dies(bench, () -> hang(bench));
              startsAnew(bench, seconds("RestartSec"));
            }));
    cases.add(
        ofProgram(
            "loop hangs in a reading",
            bench -> {
              bench.beforeReading(
                  () -> {
                    bench.breaksNow();
                    hang(bench);
                    kill(bench);
                  });
              untilKilled(bench);
              bench.beforeReading(() -> {});
              startsAnew(bench, seconds("RestartSec"));
            }));
    cases.add(damagedJournal());
  }

  private static FaultCases.Case ofProgram(String name, FaultCases.Act breaks) {
    return new FaultCases.Case(
        name, null, FaultCases.DUE, FaultCases.TWO_HOURS, breaks, bench -> {});
  }

  private static FaultCases.Case damagedJournal() {
    Map<Path, byte[]> good = new HashMap<>();
    return new FaultCases.Case(
        "journal damaged, found at a start; a copy is put back",
        null,
        FaultCases.DUE,
        FaultCases.TWO_HOURS,
        bench -> {
          bench.world().killProgram();
          bench.die();
          for (String end : List.of("", "-wal")) {
            Path file = Path.of(bench.journalFile() + end);
            if (Files.exists(file)) {
              good.put(file.getFileName(), Files.readAllBytes(file));
              byte[] noise = new byte[(int) Files.size(file)];
              new SplittableRandom(3).nextBytes(noise);
              Files.write(file, noise);
            }
          }
          bench.powerOn();
        },
        bench -> {
          bench.world().killProgram();
          bench.die();
          for (Map.Entry<Path, byte[]> file : good.entrySet()) {
            Files.write(bench.journalFile().resolveSibling(file.getKey()), file.getValue());
          }
          bench.powerOn();
        });
  }

  /** Runs until the pump does, lets that happen, and kills the program. */
  private static void dies(FaultBench bench, Runnable happens) {
    FaultCases.whenPumpStarts(
        bench,
        () -> {
          bench.timePump();
          happens.run();
          kill(bench);
        });
    untilKilled(bench);
  }

  private static void kill(FaultBench bench) {
    bench.world().killProgram();
    throw new Killed();
  }

  private static void untilKilled(FaultBench bench) {
    try {
      bench.runFor(FaultCases.TWO_HOURS);
    } catch (Killed expected) {
      return;
    }
    throw new AssertionError("the program was not killed");
  }

  private static void startsAnew(FaultBench bench, Duration after) throws Exception {
    bench.die();
    bench.time().pause(after);
    bench.powerOn();
    long s = Duration.between(bench.broken(), bench.now()).toSeconds();
    bench.note("started anew after %d s".formatted(s));
  }

  /** Nothing moves on until the service manager's watchdog, fed as long as all is well, bites. */
  private static void hang(FaultBench bench) {
    long fed = bench.time().nanos();
    while (bench.signs().alive(bench.time().nanos())) {
      fed = bench.time().nanos();
      bench.time().pause(LOOKS);
    }
    bench.seenToHang("no sign of life");
    bench.time().until(fed + seconds("WatchdogSec").toNanos());
  }

  /** As the unit file says. */
  private static Duration seconds(String key) {
    try {
      Matcher line = Pattern.compile("(?m)^" + key + "=(\\d+)$").matcher(Files.readString(UNIT));
      if (!line.find()) {
        throw new IllegalStateException(UNIT + " has no " + key);
      }
      return Duration.ofSeconds(Long.parseLong(line.group(1)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

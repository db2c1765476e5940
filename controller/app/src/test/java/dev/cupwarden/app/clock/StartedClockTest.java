package dev.cupwarden.app.clock;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.BoardWiring.ClockChip;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Which clock is believed at a start: of a new bench, and of one that was off for a while. */
class StartedClockTest {
  private static final Instant START = Instant.parse("2027-01-10T08:00:00Z");
  private static final Duration MINUTE = Duration.ofMinutes(1);

  @TempDir Path folder;
  private boolean synchronised;

  private final class Machine implements BenchTime {
    private final VirtualTime world = new VirtualTime(START);
    private final AcceleratedTime time = new AcceleratedTime(world, AcceleratedTime.UNBOUNDED);
    private final ClockEvidence evidence;

    Machine(Optional<ClockChip> chip) {
      evidence =
          new MachineClock(
              chip, folder.resolve("synchronized"), () -> synchronised, folder.resolve("rtc"));
    }

    @Override
    public Instant wall() {
      return time.wall();
    }

    @Override
    public ClockEvidence evidence() {
      return evidence;
    }

    @Override
    public long nanos() {
      return time.nanos();
    }

    @Override
    public void until(long nanos) {
      time.until(nanos);
    }

    @Override
    public Repeating every(Duration period, Runnable task) {
      return time.every(period, task);
    }
  }

  private Machine bare;

  @BeforeEach
  void withoutAChip() {
    bare = new Machine(Optional.empty());
  }

  private Machine withChip(Instant shown) throws Exception {
    Path chip = Files.createDirectories(folder.resolve("rtc").resolve("rtc0"));
    Files.writeString(chip.resolve("since_epoch"), shown.getEpochSecond() + "\n");
    Files.writeString(chip.resolve("hctosys"), "1\n");
    return new Machine(Optional.of(new ClockChip("ds3231", Duration.ofSeconds(60))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"1970-01-01T00:00:12Z", "2000-01-01T00:00:00Z", "2025-12-31T23:59:59Z"})
  void aYearBeforeTheBuildIsNoClockOfANewBench(String shown) {
    bare.world.setWall(Instant.parse(shown));
    SteadyClock clock = SteadyClock.fresh(bare);
    assertFalse(clock.trusted());
    Instant begun = clock.now();
    assertFalse(clock.trusted());
    assertFalse(begun.isBefore(Instant.parse("2026-01-01T00:00:00Z")), "" + begun);
    clock.acceptWall();
    clock.now();
    assertFalse(clock.trusted(), "nobody makes it one");
    bare.world.advanceBy(Duration.ofHours(5));
    bare.world.setWall(START.plus(Duration.ofHours(5)));
    assertEquals(START.plus(Duration.ofHours(5)), clock.now(), "the first that is one");
    assertTrue(clock.trusted());
  }

  @Test
  void aNewBenchOfThisYearIsBelieved() {
    assertTrue(SteadyClock.fresh(bare).trusted());
  }

  @ParameterizedTest
  @ValueSource(ints = {3, 13 * 24})
  void aStartHoursAheadWaitsForAPerson(int hours) {
    Instant last = START.minus(Duration.ofHours(hours));
    SteadyClock clock = SteadyClock.after(last, bare);
    for (int look = 0; look < 90; look++) {
      assertTrue(clock.now().isBefore(last.plus(Duration.ofHours(2))));
      assertFalse(clock.trusted());
      bare.world.advanceBy(MINUTE);
    }
    clock.acceptWall();
    assertEquals(bare.wall(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void aStartHoursAheadWaitsForATimeSource() {
    SteadyClock clock = SteadyClock.after(START.minus(Duration.ofHours(12)), bare);
    clock.now();
    assertFalse(clock.trusted());
    bare.world.advanceBy(Duration.ofHours(4));
    synchronised = true;
    assertEquals(bare.wall(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void aTimeSourceHeardBeforeTheStartIsEnough() throws Exception {
    Files.createFile(folder.resolve("synchronized"));
    assertTrue(SteadyClock.after(START.minus(Duration.ofHours(12)), bare).trusted());
  }

  @Test
  void aShortAbsenceNeedsNobody() {
    assertTrue(SteadyClock.after(START.minus(Duration.ofMinutes(100)), bare).trusted());
  }

  @Test
  void afterATruePowerCutOfTwelveHoursTheChipIsBelieved() throws Exception {
    Machine machine = withChip(START.plusSeconds(2));
    SteadyClock clock = SteadyClock.after(START.minus(Duration.ofHours(12)), machine);
    assertTrue(clock.trusted());
    assertEquals(machine.wall(), clock.now());
  }

  @Test
  void aChipThatShowsSomethingElseVouchesForNothing() throws Exception {
    for (Instant shown :
        new Instant[] {START.plusSeconds(10), START.minus(Duration.ofDays(40)), Instant.EPOCH}) {
      Machine machine = withChip(shown);
      assertFalse(
          SteadyClock.after(START.minus(Duration.ofHours(12)), machine).trusted(), "" + shown);
    }
    Machine drifted = withChip(START.plusSeconds(20));
    assertTrue(
        SteadyClock.after(START.minus(Duration.ofDays(10)), drifted).trusted(), "within its drift");
  }

  @Test
  void aMachineSaysWhetherItHeardATimeSourceWithoutFailing() {
    assertDoesNotThrow(() -> new MachineClock(Optional.empty()).synchronised());
  }
}

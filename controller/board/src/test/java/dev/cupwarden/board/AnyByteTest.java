package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.util.Optional;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.statistics.Statistics;

/** Whatever bytes a chip sends, a scan ends in time with a weight or a fault, and never throws. */
class AnyByteTest {
  /**
   * A port to a chip gone mad: it keeps what is written to it and shows itself powered up and
   * ready, but any byte may be another, and any message may go without answer.
   */
  private static final class MadPort implements I2cPort {
    private final SplittableRandom random;
    private final double madness;
    private final byte[] registers = new byte[256];

    MadPort(SplittableRandom random, double madness) {
      this.random = random;
      this.madness = madness;
    }

    @Override
    public void write(int... bytes) throws ChipException {
      sometimesSilent();
      for (int i = 1; i < bytes.length; i++) {
        registers[bytes[0] + i - 1] = (byte) bytes[i];
      }
    }

    @Override
    public byte[] read(int count) throws ChipException {
      sometimesSilent();
      byte[] bytes = new byte[count];
      random.nextBytes(bytes);
      return bytes;
    }

    @Override
    public byte[] readFrom(int register, int count) throws ChipException {
      byte[] any = read(count);
      for (int i = 0; i < count; i++) {
        int at = register + i;
        boolean result = at >= 0x12 && at <= 0x14; // conversions are any bytes at all
        if (!result && random.nextDouble() >= madness) {
          any[i] = shown(at);
        }
      }
      return any;
    }

    /** Powered up and ready, no calibration under way; else what was written. */
    private byte shown(int register) {
      return switch (register) {
        case 0x00 -> (byte) (registers[0x00] == 0x01 ? 0x01 : registers[0x00] | 0x28);
        case 0x02 -> (byte) (registers[0x02] & ~0x04);
        default -> registers[register];
      };
    }

    private void sometimesSilent() throws ChipException {
      if (random.nextDouble() < madness) {
        throw new ChipException("Silent.");
      }
    }
  }

  @Property(tries = 300)
  void aScanEndsWhateverTheConverterSends(@ForAll long seed) {
    VirtualTime time = new VirtualTime(TestBench.START);
    Pace pace = TestBench.pace(time);
    SplittableRandom random = new SplittableRandom(seed);
    MadPort port = new MadPort(random, random.nextDouble() * random.nextDouble() * 0.2);
    ScaleReader reader = new ScaleReader(pace);
    BoardWiring.Scale scale =
        new BoardWiring.Scale("nau7802", new BoardWiring.BusPlace(0x2A, Optional.empty()), 2147, 0);
    reader.add("K1", scale, new Nau7802(port, pace));
    ScaleReader.Scan scan = reader.scan();
    assertEquals(1, scan.massG().size() + scan.faults().size());
    Statistics.label("scans").collect(scan.faults().isEmpty() ? "read" : "fault");
    Statistics.label("scans").coverage(seen -> seen.check("read").percentage(p -> p > 5));
    Statistics.label("scans").coverage(seen -> seen.check("fault").percentage(p -> p > 5));
    assertTrue(time.nanos() < Duration.ofSeconds(20).toNanos());
  }

  @Property(tries = 300)
  void theAirSensorGivesAirOrAFault(@ForAll long seed) {
    Pace pace = TestBench.pace(new VirtualTime(TestBench.START));
    Sht3x sensor = new Sht3x(new MadPort(new SplittableRandom(seed), 0), pace);
    try {
      Sht3x.Air air = sensor.measure();
      assertTrue(air.tempC() >= -45 && air.tempC() <= 130 && air.rhPct() <= 100);
    } catch (ChipException e) {
      assertTrue(e.getMessage().endsWith("."), e.getMessage());
    }
  }
}

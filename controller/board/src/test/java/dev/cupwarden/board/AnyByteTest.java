package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.longrun.Fuzz;
import dev.cupwarden.core.longrun.Slips;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Whatever bytes a chip sends, a scan ends in time with a value or a fault, and never throws. */
@Tag("long")
class AnyByteTest {
  private static final byte[] THERMOMETER_FILE =
      """
      91 01 4b 46 7f ff 0c 10 25 : crc=25 YES
      91 01 4b 46 7f ff 0c 10 25 t=25062
      """
          .getBytes(StandardCharsets.US_ASCII);

  private int values;
  private int faults;

  /** A chip that is asked for a value. */
  private interface Chip {
    double value() throws ChipException;
  }

  /** The value lies within the chip's range, or there is a sentence. */
  private void ask(double least, double most, Chip chip) {
    try {
      double value = chip.value();
      assertTrue(value >= least && value <= most, () -> "" + value);
      values++;
    } catch (ChipException e) {
      assertTrue(e.getMessage().endsWith("."), e.getMessage());
      faults++;
    }
  }

  /** Else the tries were hardly tries. */
  private void assertBothCame() {
    boolean one = Long.getLong("fuzz.seed") != null;
    assertTrue(one || 100 * Math.min(values, faults) > values + faults, values + " / " + faults);
  }

  private static MadPort port(SplittableRandom random, double madness) {
    return new MadPort(random, random.nextDouble() * random.nextDouble() * madness);
  }

  @Test
  void aScanEndsWhateverTheConverterSends() throws Exception {
    Fuzz.of(
        "bytes of a weight converter",
        "each scan ended in time, with a weight or a fault.",
        random -> {
          VirtualTime time = new VirtualTime(TestBench.START);
          Pace pace = TestBench.pace(time);
          ScaleReader reader = new ScaleReader(pace);
          BoardWiring.Scale scale =
              new BoardWiring.Scale(
                  "nau7802", new BoardWiring.BusPlace(0x2A, Optional.empty()), 2147, 0);
          reader.add("K1", scale, new Nau7802(port(random, 0.2), pace));
          ScaleReader.Scan scan = reader.scan();
          assertEquals(1, scan.massG().size() + scan.faults().size());
          values += scan.massG().size();
          faults += scan.faults().size();
          assertTrue(time.nanos() < Duration.ofSeconds(20).toNanos());
        });
    assertBothCame();
  }

  @Test
  void theOtherSensorsGiveAValueOrAFault() throws Exception {
    Fuzz.of(
        "bytes of the other sensors",
        "air, probe and thermometer each gave a value within their range or a fault.",
        random -> {
          Pace pace = TestBench.pace(new VirtualTime(TestBench.START));
          byte[] air = rightOrAny(random);
          ask(-45, 130, () -> new Sht3x(answering(random, air), pace).measure().tempC());
          ask(0, 100, () -> new Sht3x(answering(random, air), pace).measure().rhPct());
          ask(-0.1, 3.4, () -> new Ads1115(port(random, 0.5), pace).volts(random.nextInt(4)));
          ask(-0.1, 3.4, () -> Ads1115.decode((short) random.nextInt()));
          byte[] file = new Slips(random).in(THERMOMETER_FILE);
          ask(-55, 125, () -> Ds18b20.tempC(Ds18b20.scratchpad(file)));
        });
    assertBothCame();
  }

  /** Six bytes as the air sensor sends them: any two words, their checks at times right. */
  private static byte[] rightOrAny(SplittableRandom random) {
    byte[] bytes = new byte[6];
    random.nextBytes(bytes);
    if (random.nextBoolean()) {
      bytes[2] = (byte) Crc8.HIGH_BIT_FIRST.of(bytes, 0, 2);
      bytes[5] = (byte) Crc8.HIGH_BIT_FIRST.of(bytes, 3, 5);
    }
    return bytes;
  }

  /** A port to a chip that answers every reading with these bytes. */
  private static I2cPort answering(SplittableRandom random, byte[] answer) {
    return new I2cPort() {
      @Override
      public void write(int... bytes) throws ChipException {
        if (random.nextInt(50) == 0) {
          throw new ChipException("Silent.");
        }
      }

      @Override
      public byte[] read(int count) {
        return Arrays.copyOf(answer, count);
      }

      @Override
      public byte[] readFrom(int register, int count) {
        return read(count);
      }
    };
  }
}

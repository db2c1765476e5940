package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.AirSensor;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import dev.cupwarden.core.setup.BoardWiring.PumpWiring;
import dev.cupwarden.core.setup.BoardWiring.Scale;
import dev.cupwarden.core.setup.BoardWiring.Valve;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class BusMapTest {
  private static BusPlace trunk(int address) {
    return new BusPlace(address, Optional.empty());
  }

  private static BusPlace behind(int mux, int channel, int address) {
    return new BusPlace(address, Optional.of(new MuxChannel(mux, channel)));
  }

  private static String refusal(Map<String, BusPlace> scales, BusPlace air, int valveGpio) {
    Map<String, Scale> wired = new TreeMap<>();
    scales.forEach((name, place) -> wired.put(name, new Scale("nau7802", place, 2147, 0)));
    BoardWiring wiring =
        new BoardWiring(
            1,
            wired,
            Optional.of(new AirSensor("sht3x", air)),
            new PumpWiring(5, 1.5),
            Map.of("V1", new Valve(valveGpio, Optional.empty())));
    return assertThrows(BoardException.class, () -> BusMap.of(wiring)).getMessage();
  }

  @Test
  void anAddressUsedTwiceRefusesToStart() {
    assertEquals(
        "Scale K1 and scale K2 both answer at address 0x2a behind channel 3 of the switch at 0x70.",
        refusal(Map.of("K1", behind(0x70, 3, 0x2A), "K2", behind(0x70, 3, 0x2A)), trunk(0x44), 6));
  }

  @Test
  void aChipOnTheTrunkAnswersBeforeThoseBehindASwitch() {
    assertEquals(
        "Scale K1 and scale K2 both answer at address 0x2a behind channel 0 of the switch at 0x70.",
        refusal(Map.of("K1", trunk(0x2A), "K2", behind(0x70, 0, 0x2A)), trunk(0x44), 6));
  }

  @Test
  void aChipWhereItCannotBeIsRefused() {
    assertEquals(
        "Scale K1: a nau7802 cannot be at address 0x2b; it can be at 0x2a.",
        refusal(Map.of("K1", trunk(0x2B)), trunk(0x44), 6));
    assertEquals(
        "Scale K1: a switch has no channel 8; it has 0 to 7.",
        refusal(Map.of("K1", behind(0x70, 8, 0x2A)), trunk(0x44), 6));
    assertEquals(
        "The air sensor: a sht3x cannot be at address 0x40; it can be at 0x44, 0x45.",
        refusal(Map.of("K1", trunk(0x2A)), trunk(0x40), 6));
  }

  @Test
  void aLineUsedTwiceRefusesToStart() {
    assertEquals(
        "The pump and valve V1 both hang on GPIO 5.",
        refusal(Map.of("K1", trunk(0x2A)), trunk(0x44), 5));
  }

  @Test
  void aChipWithoutADriverIsNamedWithThoseThatHaveOne() {
    BoardWiring wiring =
        new BoardWiring(
            1,
            Map.of("K1", new Scale("ads1232", trunk(0x2A), 2147, 0)),
            Optional.empty(),
            new PumpWiring(5, 1.5),
            Map.of());
    assertEquals(
        "Scale K1: \"ads1232\" is not a chip this board has a driver for; known: nau7802, sht3x, ads1115, pcf8574.",
        assertThrows(BoardException.class, () -> BusMap.of(wiring)).getMessage());
  }
}

package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class HoseKeysTest {
  private static String file(String name) throws IOException {
    try (InputStream in = HoseKeysTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static HoseRules hose(String keys) throws Exception {
    return BenchFile.read("bench.yaml", keys + "\n" + file("back-room.yaml")).hose();
  }

  private static String refused(String keys) {
    return assertThrows(SetupException.class, () -> hose(keys)).getMessage();
  }

  @Test
  void byVolumeOrByLengthAndBore() throws Exception {
    assertEquals(HoseRules.NONE, hose(""));
    assertEquals(new HoseRules(12.0, true, Optional.empty()), hose("hose: 12 mL"));
    assertEquals(new HoseRules(0.0, true, Optional.empty()), hose("hose: 0 mL"));
    // By hand: pi / 4 x 0.3 cm x 0.3 cm x 170 cm.
    assertEquals(12.017, hose("hose: {length: 170 cm, bore: 3 mm}").volumeMl(), 1e-3);
    assertEquals(12.017, hose("hose: {length: 1.7 m, bore: 3 mm}").volumeMl(), 1e-3);
  }

  @Test
  void whatIsWrongIsToldWithItsPlace() {
    assertEquals(
        "bench.yaml:1:7 hose: \"12\" has no unit: expected a volume in one of mL, L, US fl oz, US gal,"
            + " tsp, tbsp",
        refused("hose: 12"));
    assertEquals(
        "bench.yaml:1:7 hose: \"200 mL\" is out of range: expected 0 mL to 100 mL",
        refused("hose: 200 mL"));
    assertEquals(
        "bench.yaml:1:7 hose: comes to 785 mL: expected 0 mL to 100 mL",
        refused("hose: {length: 10 m, bore: 10 mm}"));
    assertEquals(
        "bench.yaml:1:7 hose.bore: is missing: expected its inner diameter, such as 3 mm",
        refused("hose: {length: 1 m}"));
    assertEquals("bench.yaml:1:8 drain: \"A1\" belongs to the cup A1", refused("drain: A1"));
  }

  @Test
  void theDrainOfAWiredBenchIsAValveOfItsOwn() throws Exception {
    String wired = file("wired.yaml");
    String tank = "drain: plain\n" + wired;
    String message =
        assertThrows(SetupException.class, () -> BenchFile.read("b.yaml", tank)).getMessage();
    assertEquals("b.yaml:1:8 drain: \"plain\" is the valve of the tank plain", message);
    String none = "drain: nowhere\n" + wired;
    assertThrows(SetupException.class, () -> BenchFile.read("b.yaml", none));
  }
}

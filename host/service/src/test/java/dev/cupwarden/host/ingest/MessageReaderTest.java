package dev.cupwarden.host.ingest;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.Spoken;
import java.nio.charset.StandardCharsets;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MessageReaderTest {
  private static final Topics SILL = new Topics("sill");
  private final MessageReader reader = new MessageReader();

  private static byte[] bytes(Object message) {
    try {
      return Json.MAPPER.writeValueAsBytes(message);
    } catch (JsonProcessingException failed) {
      throw new IllegalStateException(failed);
    }
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void aPackIsResolvedByItsBaseNameAndTime() throws MalformedException {
    BenchMessage said =
        reader.read(SILL.readings(), bytes(Spoken.pack("sill", EIGHT, "A1", 301.5)));
    BenchMessage.Measured measured = assertInstanceOf(BenchMessage.Measured.class, said);
    assertEquals(2, measured.readings().size());
    assertEquals("A1/mass", measured.readings().get(0).name());
    assertEquals(EIGHT, measured.readings().get(1).at());
    assertEquals("Cel", measured.readings().get(1).unit());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "readings|[]|list",
        "readings|{}|list",
        "readings|[{\"bn\":\"sill/\",\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":\"301\"}]|v is not a number",
        "readings|[{\"bn\":\"sill/\",\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":1e999}]|too large",
        "readings|[{\"bn\":\"sill/\",\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":NaN}]|N",
        "readings|[{\"bn\":\"sill/\",\"n\":\"A1/mass\",\"v\":1}]|bt is missing",
        "readings|[{\"bn\":\"other/\",\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":1}]|not the bench",
        "readings|[{\"bt\":-5,\"n\":\"A1/mass\",\"v\":1}]|not a time",
        "readings|[{\"bt\":1.8e12,\"n\":\"A1/mass\",\"v\":1}]|not a time",
        "readings|[{\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":1,\"vs\":\"x\"}]|vs",
        "readings|[{\"bt\":1.8e9,\"v\":1}]|n is missing",
        "presence|{\"state\":\"asleep\",\"since\":\"2027-02-14T08:00:00Z\"}|state",
        "presence|{\"state\":\"online\"}|since is missing",
        "presence|{\"state\":\"online\",\"state\":\"offline\"}|uplicate",
        "presence|{\"state\":\"online\"|end-of-input",
        "presence|{\"state\":\"online\",\"since\":\"2027-02-14T08:00:00Z\"} x|x",
        "events|{\"epoch\":\"e\",\"seq\":0,\"at\":\"2027-02-14T08:00:00Z\",\"kind\":\"dose\",\"data\":{}}|seq",
        "events|{\"epoch\":\"e\",\"seq\":1.5,\"at\":\"2027-02-14T08:00:00Z\",\"kind\":\"dose\",\"data\":{}}|1.5",
        "events|{\"epoch\":\"e\",\"seq\":\"1\",\"at\":\"2027-02-14T08:00:00Z\",\"kind\":\"dose\",\"data\":{}}|String",
        "events|{\"epoch\":\"e\",\"at\":\"2027-02-14T08:00:00Z\",\"kind\":\"dose\",\"data\":{}}|seq",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":\"2027-02-14T08:00:00Z\",\"kind\":\"alert\",\"data\":{}}|value: is missing",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":\"soon\",\"kind\":\"dose\",\"data\":{}}|at: expected a time such as 2027",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":\"+999999999-12-31T23:59:59Z\",\"kind\":\"dose\",\"data\":{}}|: expected a time from 1970-01-01T00:00:00Z to 2200",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":1e300,\"kind\":\"dose\",\"data\":{}}|at: expected a time such as 2027",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":99999999999999,\"kind\":\"dose\",\"data\":{}}|at: expected a time such as 2027",
        "events|{\"epoch\":\"e\",\"seq\":1,\"at\":9223372036854775807,\"kind\":\"dose\",\"data\":{}}|at: expected a time such as 2027",
        "readings|[{\"bt\":1e300,\"n\":\"A1/mass\",\"v\":1}]|not a time",
        "presence|{\"state\":\"online\",\"since\":\"-0044-03-15T12:00:00Z\"}|: expected a time from 1970-01-01T00:00:00Z to 2200",
        "bench|[1]|object",
        "bench|null|object",
        "cups/A1|{\"cup\":\"A1\"}|missing",
        "receipts|{\"id\":\"o\",\"outcome\":\"perhaps\"}|outcome",
        "nonsense|{}|no such topic",
        "cups/A1/more|{}|no such topic",
      })
  void whatIsNotAsPromisedIsRefusedWithTheReason(String topic, String payload, String reason) {
    MalformedException refused =
        assertThrows(
            MalformedException.class,
            () -> reader.read("cupwarden/v1/sill/" + topic, utf8(payload)));
    assertTrue(refused.getMessage().contains(reason), refused.getMessage());
  }

  @Test
  void aMegabyteBinaryAndDeepNestingAreRefused() {
    assertThrows(MalformedException.class, () -> reader.read(SILL.readings(), new byte[1_000_000]));
    assertThrows(
        MalformedException.class,
        () -> reader.read(SILL.events(), new byte[] {(byte) 0xff, (byte) 0xfe, 0, 1}));
    assertThrows(
        MalformedException.class, () -> reader.read(SILL.events(), utf8("[".repeat(100_000))));
    assertThrows(MalformedException.class, () -> reader.read(SILL.events(), new byte[0]));
  }

  @Test
  void aWholeNumberOfMoreDigitsThanADoubleHoldsIsRefused() {
    String huge = "1" + "0".repeat(400);
    for (String reading :
        List.of(
            "[{\"bt\":1.8e9,\"n\":\"A1/mass\",\"v\":" + huge + "}]",
            "[{\"bt\":" + huge + ",\"n\":\"A1/mass\",\"v\":1}]")) {
      MalformedException refused =
          assertThrows(MalformedException.class, () -> reader.read(SILL.readings(), utf8(reading)));
      assertEquals("a number is too large", refused.getMessage());
    }
  }

  @Test
  void aCupSaidUnderAnotherCupsTopicIsRefused() {
    MalformedException refused =
        assertThrows(
            MalformedException.class,
            () -> reader.read(SILL.cup("A2"), bytes(Spoken.cup("A1", EIGHT, 300))));
    assertTrue(refused.getMessage().startsWith("cup:"), refused.getMessage());
  }

  @Property(tries = 500)
  void anythingIsEitherUnderstoodOrRefusedAndNeverThrowsOtherwise(
      @ForAll("topics") String topic, @ForAll("payloads") byte[] payload) {
    try {
      assertTrue(reader.read(topic, payload).bench() != null);
    } catch (MalformedException refused) {
      assertTrue(!refused.getMessage().isBlank() && refused.getMessage().length() < 400);
    }
  }

  @Provide
  Arbitrary<String> topics() {
    return Arbitraries.of(
            "readings", "presence", "bench", "events", "receipts", "cups/A1", "orders", "kept", "x")
        .map(kind -> "cupwarden/v1/sill/" + kind);
  }

  /** Real messages with a few bytes changed, cut short, or nothing but noise. */
  @Provide
  Arbitrary<byte[]> payloads() {
    Arbitrary<byte[]> real =
        Arbitraries.of(
            bytes(Spoken.pack("sill", EIGHT, "A1", 301.5)),
            bytes(Spoken.cup("A1", EIGHT, 300)),
            bytes(Spoken.bench(EIGHT)),
            bytes(Spoken.dose("e", 1, "A1", EIGHT)),
            bytes(Spoken.alert("e", 2, "cold", "raised", EIGHT)));
    Arbitrary<Integer> places = Arbitraries.integers().between(0, 2_000);
    Arbitrary<byte[]> changed =
        net.jqwik.api.Combinators.combine(real, places, Arbitraries.bytes())
            .as(MessageReaderTest::changed);
    Arbitrary<byte[]> cut =
        net.jqwik.api.Combinators.combine(real, places)
            .as((bytes, place) -> java.util.Arrays.copyOf(bytes, place % bytes.length));
    Arbitrary<byte[]> noise = Arbitraries.bytes().array(byte[].class).ofMaxSize(200);
    return Arbitraries.oneOf(real, changed, cut, noise);
  }

  private static byte[] changed(byte[] bytes, int place, byte with) {
    byte[] copy = bytes.clone();
    copy[place % copy.length] = with;
    return copy;
  }
}

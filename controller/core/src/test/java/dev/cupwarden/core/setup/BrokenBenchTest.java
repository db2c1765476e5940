package dev.cupwarden.core.setup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every way in which a bench file may be wrong is told in one sentence, with its place. */
class BrokenBenchTest {
  private static String refusal(String yaml) {
    String sentence =
        assertThrows(SetupException.class, () -> BenchFile.read("bench.yaml", yaml)).getMessage();
    assertFalse(sentence.contains("\n"), sentence);
    return sentence;
  }

  private static String edited(String yaml, String was, String is) {
    assertTrue(yaml.contains(was), () -> "the example has no " + was);
    return yaml.replaceFirst(
        java.util.regex.Pattern.quote(was), java.util.regex.Matcher.quoteReplacement(is));
  }

  /** Line and column are those of the first place of a text in the file. */
  private static void assertRefused(String yaml, String pointsAt, String sentence) {
    int at = yaml.indexOf(pointsAt);
    long line = yaml.substring(0, at).chars().filter(c -> c == '\n').count() + 1;
    int column = at - yaml.lastIndexOf('\n', at - 1);
    assertEquals("bench.yaml:%d:%d %s".formatted(line, column, sentence), refusal(yaml));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          tall,  mix: coir-perlite | tall,  mix: cour-perlite | cour-perlite | cups.A1.mix: "cour-perlite" is not a mix of this bench; known: coir-perlite
          vessel: tall | vessel: taller | taller | cups.A1.vessel: "taller" is not a vessel of this bench; known: short, tall
          vessel: tall, | `` | {  mix | cups.A1.vessel: is missing: expected a vessel of this bench
          bench: back-room | `` | place | bench: is missing: expected the bench's name
          soak: 12 min | soaks: 12 min | soaks | watering.soaks: "soaks" is not a key here; known: window, pass, soak
          soak: 12 min | pass: 12 mL | pass: 12 | watering.pass: is given twice, first at 6:3
          tick: 5 min | bench: other | bench: other | bench: is given twice, first at 1:1
          A2: {vessel | A1: {vessel | A1: {vessel: short | cups.A1: is given twice, first at 44:3
          pass: 30 mL | pass: 30 | 30 | watering.pass: "30" has no unit: expected a volume in one of mL, L, US fl oz, US gal, tsp, tbsp
          pass: 30 mL | pass: 30 ml | 30 | watering.pass: "ml" is not a known unit, is mL meant?: expected a volume in one of mL, L, US fl oz, US gal, tsp, tbsp
          pass: 30 mL | pass: 30 g | 30 | watering.pass: "30 g" is a mass: expected a volume in one of mL, L, US fl oz, US gal, tsp, tbsp
          pass: 30 mL | pass: 30 L | 30 | watering.pass: "30 L" is out of range: expected 5 mL to 100 mL
          pass: 30 mL | pass: NaN mL | NaN | watering.pass: "NaN mL" is not a volume: expected a number and a unit, one of mL, L, US fl oz, US gal, tsp, tbsp
          pass: 30 mL | pass: [30 mL] | [30 | watering.pass: a list stands where a volume with its unit is expected
          pass: 30 mL | pass: ~ | ~ | watering.pass: is empty: expected a volume with its unit
          soak: 12 min | soak: 10 s | 10 | watering.soak: "10 s" is out of range: expected 1 min to 360 min
          top: 92 mm | top: -92 mm | -92 | vessels.tall.top: "-92 mm" is out of range: expected 10 mm to 500 mm
          top: 92 mm | top: 92 C | 92 | vessels.tall.top: "92 C" is a temperature: expected a length in one of mm, cm, m, in
          saturated: 0.82 | saturated: 82 | 82 | mixes.coir-perlite.retention.saturated: "82" is out of range: expected 0.2 to 0.99
          saturated: 0.82 | saturated: "0.82" | "0.82" | mixes.coir-perlite.retention.saturated: "0.82" is not a number: expected 0.2 to 0.99
          saturated: 0.82 | saturated: .nan | .nan | mixes.coir-perlite.retention.saturated: ".nan" is not a number: expected 0.2 to 0.99
          residual: 0.12 | residual: 0.82 | 0.82, alpha | mixes.coir-perlite.retention.residual: 0.82 is not below saturated, 0.82
          n: 1.55 | n: 1 | 1} | mixes.coir-perlite.retention.n: "1" is out of range: expected 1.01 to 10
          latitude: 54.9 | latitude: 91 | 91 | place.latitude: "91" is out of range: expected -90 to 90
          Europe/London | Europe/Lundon | Europe/Lundon | place.zone: "Europe/Lundon" is not a time zone: expected a name such as Europe/London or UTC
          from: "08:00" | from: "17:00" | {from | watering.window: from 17:00 is not earlier than to 16:00
          from: "08:00" | from: "16:00" | {from | watering.window: from 16:00 is not earlier than to 16:00
          from: "08:00" | from: 8am | 8am | watering.window.from: "8am" cannot be read: expected a time of day such as "08:00", 00:00 to 23:59
          from: "08:00" | from: "25:00" | "25 | watering.window.from: "25:00" does not exist: expected a time of day such as "08:00", 00:00 to 23:59
          {from: "08:00", to: "16:00"} | night | night | watering.window: "night" is not a window: expected daylight, or {from: "08:00", to: …}
          struck: 2026-11-14 | struck: 2026-11-31 | 2026-11-31 | cups.A1.struck: "2026-11-31" does not exist: expected a date such as 2026-11-14
          struck: 2026-11-14 | struck: 14.11.2026 | 14.11.2026 | cups.A1.struck: "14.11.2026" cannot be read: expected a date such as 2026-11-14
          from: 12-01 | from: 13-01 | 13-01 | feeding.pause.from: "13-01" does not exist: expected month and day such as 12-01
          stage: toughened | stage: tough | tough, | cups.A1.stage: "tough" is not a root stage; known: struck, white, toughened, circling
          target: {toughened | target: {struck | struck | feeding.target.struck: "struck" is not a key here; known: toughened, circling
          ceiling: 0.5 | ceiling: 1.5 | 1.5 | feeding.ceiling: "1.5" is out of range: expected 0 to 1
          floor: 0 | floor: 0.6 | floor | feeding: floor 0.6 is above ceiling 0.5
          from: 2026-11-01, feed: leafy | from: 2026-11-01, feed: rooty | rooty | feeding.plan[0].feed: "rooty" is not a feed of this bench; known: leafy
          feed: leafy, strength | feed: rooty, strength | rooty | tanks.feed.feed: "rooty" is not a feed of this bench; known: leafy
          feed: leafy, strength: 0.5 | feed: leafy | {size: 4 | tanks.feed.strength: is missing: expected label strength of what is in the tank
          {size: 12 L} | {size: 12 L, strength: 0.5} | 0.5} | tanks.plain.strength: stands without feed: plain water has no strength
          N: 20 | N: 90 | {N | feeds.leafy.analysis: adds up to 120 percent: expected more than 0 and at most 100
          amount: 1 tsp | amount: 1 mm | 1 mm | feeds.leafy.label.amount: "1 mm" is neither a mass nor a volume: expected a number and one of g, kg, oz, mL, L, US fl oz, US gal, tsp, tbsp
          amount: 1 tsp | amount: 1 kg | 1 kg | feeds.leafy.label.amount: "1 kg" comes to 264.2 g per L: expected more than 0 and at most 50 g per L
          {due: 0.40, refill: 0.0, dry: 0.70} | {due: 0.70, refill: 0.0, dry: 0.70} | {due | lines.circling: refill 0.0, due 0.7 and dry 0.7 are not in rising order
          circling: {due | ringed: {due | ringed | lines.ringed: "ringed" is not a key here; known: struck, white, toughened, circling
          frost: 3 C | frost: 12 C | cold | climate: frost 12.0 C, cold 12.0 C and heat 30.0 C are not in rising order
          heat: 30 C | root_heat: 16 F | 16 F | climate.root_heat: "16 F" is out of range: expected 15 C to 60 C
          cold: 12 C | cold: 28 C | cold | climate: root_heat 27.0 C is not above cold 28.0 C
          water: {ec: 0.30} | covered: yes | yes | covered: "yes" is neither true nor false
          empty: 9 g | empty: 9 g, holes: all | all} | vessels.short.holes: "all" is not a word for its holes; known: none
          heat: 30 C | lift_cover: 25:00 | 25:00 | climate.lift_cover: "25:00" does not exist: expected a time of day such as "08:00", 00:00 to 23:59
          heat: 30 C | root_cups: [A1, A9] | A9 | climate.root_cups[1]: "A9" is not a cup of this bench; known: A1, A2
          cold: 12 C | cold: 12 K | 12 K | climate.cold: "K" is not a known unit: expected a temperature in one of C, F
          bench: back-room | bench: back/room | back/room | bench: "back/room" cannot be a name on the wire: expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit
          A1: {vessel | A+1: {vessel | A+1 | cups.A+1: "A+1" cannot be a name on the wire: expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit
          A1: {vessel | $SYS: {vessel | $SYS | cups.$SYS: "$SYS" cannot be a name on the wire: expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit
          struck: 2026-11-14 | struck: null | null | cups.A1.struck: is empty: expected a date such as 2026-11-14
          plant: blackcurrant | plant: true | true | cups.A1.plant: "true" is not text: put it in quotes if it is meant as a name
          cutting: 14 g | cutting: 14 g, scale: s1 | s1 | cups.A1.scale: "s1" is unknown: there is no section board
          """)
  void wrongValuesAreRefusedWithTheirPlace(
      String was, String is, String pointsAt, String sentence) {
    assertRefused(edited(BenchTexts.backRoom(), was, is), pointsAt, sentence);
  }

  @Test
  void daylightWithoutAPlaceIsRefused() {
    String yaml = edited(BenchTexts.backRoom(), "place:", "#");
    assertEquals(
        "bench.yaml:5:11 watering.window: daylight needs the section place, for sunrise and sunset",
        refusal(edited(yaml, "{from: \"08:00\", to: \"16:00\"}", "daylight")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          channel: 1 | channel: 0 | 0x2A, mux: 0x70, channel: 0, counts_per_g: -1049.8 | board.scales.s2.address: 0x2A behind 0x70 channel 0 is already the place of board.scales.s1
          address: 0x44 | address: 0x2A | 0x2A} | board.air.address: 0x2A is already the place of board.scales.s1
          address: 0x44 | address: 0x70 | 0x70} | board.air.address: 0x70 is already the place of board.scales.s1
          address: 0x44 | address: 0x79 | 0x79 | board.air.address: "0x79" is out of range: expected 8 to 119
          , channel: 0 | `` | {chip | board.scales.s1.channel: is missing: expected 0 to 7, as there is a mux
          chip: sht3x | chip: sht9x | sht9x | board.air.chip: "sht9x" is not a known air sensor; known: sht3x
          gpio: 23 | gpio: 0x16 | 0x16 | board.valves.v2.gpio: 22 is already the line of board.valves.v1
          gpio: 23 | gpio: 17 | 17} | board.valves.v2.gpio: 17 is already the line of board.pump
          gpio: 23 | gpio: 0x03 | 0x03 | board.valves.v2.gpio: 3 is already the line of the I2C bus
          bus: 1 | gpio_chip: dev/gpiochip1 | dev/ | board.gpio_chip: "dev/gpiochip1" is no GPIO chip: expected 1 to 32 letters A to Z, digits, '-', '_' or '.', beginning with a letter or digit
          gpio: 23 | gpio: 28 | 28 | board.valves.v2.gpio: "28" is out of range: expected 0 to 27
          tank: plain | tank: rain | rain | board.valves.plain.tank: "rain" is not a tank of this bench; known: plain
          counts_per_g: 1050.2 | counts_per_g: 0 | 0, zero | board.scales.s1.counts_per_g: is 0: expected the counts that one gram makes, negative if upside down
          rate: 1.5 mL/s | rate: 1.5 mL | 1.5 mL | board.pump.rate: "1.5 mL" is a volume: expected a flow in one of mL/s
          scale: s2 | scale: s3 | s3 | cups.A2.scale: "s3" is not a scale of the board; known: s1, s2
          scale: s2 | scale: s1 | s1, valve: v2 | cups.A2.scale: "s1" is already that of cup A1
          valve: v2 | valve: v1 | v1} | cups.A2.valve: "v1" is already that of cup A1
          valve: v2 | valve: v9 | v9 | cups.A2.valve: "v9" is not a valve of the board; known: plain, v1, v2
          valve: v2 | valve: "plain" | "plain" | cups.A2.valve: "plain" is the valve of a tank, not of a cup
          input: 1 | input: 0 | 0x48, input: 0, points: [{volts: 2.3 | board.probes.p2.address: input 0 of 0x48 is already that of board.probes.p1
          chip: ads1115, address: 0x48 | chip: ads1115, address: 0x44 | 0x44, input | board.probes.p1.address: 0x44 is already the place of board.air
          volts: 1.1, theta: 0.80 | volts: 2.4, theta: 0.80 | [{volts: 2.4 | board.probes.p1.points: is no curve: expected two or more points of which theta always rises, or always falls, with volts
          probe: p1 | probe: p9 | p9 | cups.A1.probe: "p9" is not a probe of the board; known: p1, p2
          id: 28-0316a2795aff | id: 10-0316a2795aff | 10-03 | board.root.id: "10-0316a2795aff" is not a one-wire id: expected such as 28-0316a2795aff
          leak: {gpio: 26} | outdoor: { chip: ds18b20, id: 28-0316a2795aff} | { chip | board.outdoor: is the root thermometer: expected another id
          leak: {gpio: 26} | leak: {gpio: 0x16} | 0x16 | board.leak.gpio: 22 is already the line of board.valves.v1
          plain: {gpio: 24, at: 500 mL} | rain: {gpio: 24, at: 500 mL} | {gpio: 24, at | board.tanks.rain: is the gauge of no tank of this bench; known: plain
          {gpio: 24, at: 500 mL} | {scale: s1, empty: 900 g} | s1, valve: v1 | cups.A1.scale: "s1" is already under the tank plain
          v2: {gpio: 23} | v2: {expander: 0x20} | {expander | board.valves.v2.pin: is missing: expected 0 to 7
          v2: {gpio: 23} | v2: {expander: 0x20, pin: 3, active: low} | active | board.valves.v2.active: "active" is not a key here; known: expander, mux, channel, pin, tank
          v2: {gpio: 23} | v2: {gpio: 23, active: up} | up} | board.valves.v2.active: "up" is not a level; known: high, low
          rate: 1.5 mL/s | rate: 1.5 mL/s, longest: {pass: 0 s} | 0 s | board.pump.longest.pass: "0 s" is out of range: expected 1 s to 86400 s
          """)
  void wrongWiringIsRefusedLikewise(String was, String is, String pointsAt, String sentence) {
    assertRefused(edited(BenchTexts.wired(), was, is), pointsAt, sentence);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "   \n", "# nothing yet\n", "---\n", "---\n...\n", "~"})
  void anEmptyFileIsToldSo(String yaml) {
    assertTrue(refusal(yaml).contains("empty") || refusal(yaml).contains("nothing"), refusal(yaml));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          just words | bench.yaml:1:1 "just words" stands where a group of keys is expected; known: bench, place, watering, tick, feeding, lines, climate, lamp, mixes, vessels, feeds, water and 8 more
          [a, b] | bench.yaml:1:1 a list stands where a group of keys is expected; known: bench, place, watering, tick, feeding, lines, climate, lamp, mixes, vessels, feeds, water and 8 more
          bench: [a | bench.yaml:1:10: is not YAML
          bench: &a b | bench.yaml:1:8: anchors (&) and aliases (*) are not read in a bench file
          bench: *a | bench.yaml:1:8: anchors (&) and aliases (*) are not read in a bench file
          bench: !!binary aGk= | bench.yaml:1:8: tags such as "tag:yaml.org,2002:binary" are not read in a bench file
          bench: !Thing {} | bench.yaml:1:8: tags such as "!Thing" are not read in a bench file
          {bench: a}} | bench.yaml:1:11: is not YAML
          ? [a] : b | bench.yaml:1:3 a key is not a word of at most 64 characters
          """)
  void whatIsNoBenchFileIsToldSo(String yaml, String beginning) {
    String sentence = refusal(yaml);
    assertTrue(sentence.startsWith(beginning), sentence);
  }

  @Test
  void tabsAreToldByLine() {
    String sentence = refusal("bench: a\nmixes:\n\tpeat: {}\n");
    assertTrue(
        sentence.startsWith("bench.yaml:3:1: is not YAML: found character '\\t(TAB)'"), sentence);
  }

  @Test
  void twoDocumentsAreRefused() {
    assertEquals(
        "bench.yaml:46:1: holds a second document: expected only one",
        refusal(BenchTexts.backRoom() + "---\nbench: other\n"));
  }

  @Test
  void aBombOfAliasesIsRefusedAtItsFirstAnchor() {
    StringBuilder bomb = new StringBuilder("a0: &a0 [x, x]\n");
    for (int i = 1; i < 30; i++) {
      bomb.append("a%d: &a%d [*a%d, *a%d]\n".formatted(i, i, i - 1, i - 1));
    }
    assertTrue(refusal(bomb.toString()).startsWith("bench.yaml:1:5: anchors"));
  }

  @Test
  void deepNestingAndHugeFilesAreRefused() {
    assertTrue(refusal("bench: " + "[".repeat(100_000)).contains("nested deeper"));
    assertTrue(refusal("#" + "x".repeat(2_000_000)).contains("larger than a bench file may be"));
    assertEquals(
        "bench.yaml:1:100003: holds more than a bench file may: expected at most 50000 keys and values",
        refusal("bench: [" + "1,".repeat(100_000) + "1]"));
  }

  @Test
  void moreCupsThanABenchMayHaveAreRefused() {
    String cups =
        IntStream.range(0, 201).mapToObj("  C%d: {}\n"::formatted).collect(Collectors.joining());
    String yaml = BenchTexts.backRoom();
    String tooMany = yaml.substring(0, yaml.indexOf("\ncups:")) + "\ncups:\n" + cups;
    assertTrue(refusal(tooMany).endsWith(" cups: are 201: a bench has at most 200 cups"));
  }

  @Test
  void bytesThatAreNotUtf8AreToldByLineAndColumn() {
    byte[] latin1 = "bench: a\nplace: caf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1);
    String sentence =
        assertThrows(SetupException.class, () -> BenchFile.read("bench.yaml", latin1)).getMessage();
    assertEquals("bench.yaml:2:11: is not UTF-8 text: save the file as UTF-8", sentence);

    byte[] cutShort = {'b', 'e', (byte) 0xC3};
    assertThrows(SetupException.class, () -> BenchFile.read("bench.yaml", cutShort));
  }

  @Test
  void controlCharactersAreRefused() {
    assertTrue(refusal("bench: a\u0000b\n").startsWith("bench.yaml: is not text"));
  }
}

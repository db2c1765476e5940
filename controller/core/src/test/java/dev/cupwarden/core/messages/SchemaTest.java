package dev.cupwarden.core.messages;

import static dev.cupwarden.core.messages.Schemas.assertDoesNotFit;
import static dev.cupwarden.core.messages.Schemas.assertFits;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is written fits the schemas that others are given, and what is wrong does not. */
class SchemaTest {
  private static final Instant AT = Instant.parse("2027-02-14T08:00:00Z");
  private static final LocalDate DAY = LocalDate.of(2027, 3, 1);
  private static final AlertNotice ALERT =
      new AlertNotice("wet-too-long", "A2", "raised", AT, 49.0, 48.0, "Look under the cup.");

  private static JsonNode json(String text) throws JsonProcessingException {
    return Json.MAPPER.readTree(text);
  }

  private static JsonNode written(Object message) {
    return Json.MAPPER.valueToTree(message);
  }

  private static Advice advice() {
    var cups = new TreeMap<String, Advice.CupReport>();
    cups.put(
        "A1",
        new Advice.CupReport(
            CupActivity.STEADY,
            0.52,
            0.01,
            1.3,
            AT,
            AT,
            true,
            RootStage.TOUGHENED,
            0.4,
            null,
            List.of("soak", "ledger")));
    cups.put(
        "A2",
        new Advice.CupReport(
            CupActivity.UNTRUSTED,
            null,
            null,
            null,
            null,
            null,
            false,
            RootStage.STRUCK,
            0,
            new CupStatus.Rooting(
                new CupStatus.LikelyDay(DAY, DAY.plusDays(4), DAY.plusDays(10)),
                new CupStatus.LikelyDay(DAY, DAY.plusDays(9), DAY.plusDays(20))),
            List.of()));
    return new Advice(
        AT,
        List.of(new Advice.Pass("A1", 15, 15, 0.25, "due")),
        List.of(ALERT),
        List.of(
            Receipt.done("o-1"),
            Receipt.refused(null, "id: is missing"),
            new Receipt("o-2", "done", null, List.of("A2")),
            Receipt.notSure("o-3", "far off", Receipt.Capacity.of(166.04, 238.0, "weighing"))),
        cups);
  }

  @Test
  void adviceFitsWithAndWithoutItsCups() {
    assertFits("advise-out", written(advice()));
    assertFits("advise-out", written(new Advice(AT, List.of(), List.of(), List.of(), null)));
  }

  @Test
  void anErrorIsAnOutputLineToo() throws JsonProcessingException {
    assertFits("advise-out", json("{\"error\":\"line 12: is blank\"}"));
    assertDoesNotFit("advise-out", json("{\"error\":\"is blank\"}"));
    assertDoesNotFit("advise-out", json("{}"));
  }

  @Test
  void adviceWithAnUnknownWordDoesNotFit() {
    ObjectNode odd = (ObjectNode) written(advice());
    ((ObjectNode) odd.at("/cups/A1")).put("state", "thirsty");
    assertDoesNotFit("advise-out", odd);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{'at':'2027-02-14T08:00:00Z','air_c':20.5,'rh_pct':48,'root_c':19.0,'light':120,'leak':false,'theta':{'A1':0.4},'mass_g':{'A1':262.1,'A2':202.3},'tank_ml':{'plain':9000,'feed':2500}}",
        "{'at':'2027-02-14T08:05:00Z','mass_g':{'A1':291.9}}",
        "{'at':'2027-02-14T08:10:00+01:00','orders':[{'id':'o-1','kind':'stage','cup':'A2','stage':'white'},{'id':'o-2','kind':'hold','until':'2027-02-15T08:00:00Z'}]}"
      })
  void linesInFit(String line) throws JsonProcessingException {
    assertFits("advise-in", json(line.replace('\'', '"')));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{}",
        "[]",
        "{'at':'today'}",
        "{'at':'2027-02-14T08:05:00Z','mass':{'A1':291.9}}",
        "{'at':'2027-02-14T08:05:00Z','mass_g':{'A1':'291.9'}}",
        "{'at':'2027-02-14T08:05:00Z','rh_pct':101}",
        "{'at':'2027-02-14T08:05:00Z','orders':[{'id':'o-1','kind':'sing'}]}"
      })
  void wrongLinesInDoNotFit(String line) throws JsonProcessingException {
    assertDoesNotFit("advise-in", json(line.replace('\'', '"')));
  }

  private static final String WIRE =
      "'id':'o-1','by':'host','issued':'2027-02-14T08:00:00Z','expires':'2027-02-15T08:00:00Z',";

  @ParameterizedTest
  @ValueSource(
      strings = {
        "'kind':'hold','until':'2027-02-15T08:00:00Z'",
        "'kind':'hold','cup':'A1','until':'2027-02-15T08:00:00Z','feed_only':true,'rescue':false",
        "'kind':'flush','cup':'A1','ml':120",
        "'kind':'add','cup':'A3','vessel':'tall','mix':'coir','plant':'vine','struck':'2027-01-05','stage':'struck','cutting':'14"
            + " g','lines':{'due':0.5,'refill':0.1,'dry':0.8}",
        "'kind':'release'",
        "'kind':'release','cup':'A1'",
        "'kind':'dose','cup':'A1','ml':25,'strength':0.25,'lift':['window','cold']",
        "'kind':'stage','cup':'A1','stage':'white'",
        "'kind':'watered','cup':'A1','ml':40,'strength':0",
        "'kind':'drained','cup':'A1'",
        "'kind':'drained','cup':'A1','sure':true",
        "'kind':'forget','order':'o-7'",
        "'kind':'away','cup':'A1'",
        "'kind':'back','cup':'A1'",
        "'kind':'filled','tank':'feed','ml':4000,'feed':'leafy','strength':0.5",
        "'kind':'filled','tank':'plain','ml':12000",
        "'kind':'weather','least_c':1,'most_c':9.5",
        "'kind':'weather','day':'2027-02-15','least_c':-4,'most_c':9.5,'wind':'strong'",
        "'kind':'repot','cup':'A1','vessel':'short','mix':'coir'",
        "'kind':'clear'",
        "'kind':'clear','cup':'A1'",
        "'kind':'retire','cup':'A1','because':'rooted'",
        "'kind':'hold','cups':['A1','A2'],'until':'2027-02-15T08:00:00Z'",
        "'kind':'release','cups':['A1']",
        "'kind':'dose','cups':['A1','A2'],'ml':25,'strength':0",
        "'kind':'away','cups':['A1','A2']"
      })
  void everyKindOfOrderFits(String fields) throws JsonProcessingException {
    assertFits("order", json(("{" + WIRE + fields + "}").replace('\'', '"')));
    assertFits(
        "advise-in",
        json(
            ("{'at':'2027-02-14T08:05:00Z','orders':[{'id':'o-1'," + fields + "}]}")
                .replace('\'', '"')));
    assertDoesNotFit("order", json(("{'id':'o-1'," + fields + "}").replace('\'', '"')));
    assertDoesNotFit("order", json(("{" + WIRE + fields + ",'volume':3}").replace('\'', '"')));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "'kind':'hold'",
        "'kind':'dose','cup':'A1','ml':-25,'strength':0.25",
        "'kind':'dose','cup':'A1','ml':25,'strength':0.25,'lift':['frost']",
        "'kind':'stage','cup':'A1','stage':'tall'",
        "'kind':'stage','cup':'A/1','stage':'white'",
        "'kind':'retire','cup':'A1','because':'bored'",
        "'kind':'away'",
        "'kind':'away','cups':[]",
        "'kind':'away','cup':'A1','cups':['A2']",
        "'kind':'release','cup':'A1','cups':['A2']",
        "'kind':'clear','cups':['A2']"
      })
  void wrongOrdersDoNotFit(String fields) throws JsonProcessingException {
    assertDoesNotFit("order", json(("{" + WIRE + fields + "}").replace('\'', '"')));
  }

  @Test
  void theOtherMessagesFit() {
    assertFits("presence", written(new Presence("online", AT)));
    assertFits("kept", written(new Kept("e-1", 42)));
    assertFits("receipt", written(Receipt.taken("o-1")));
    assertFits("receipt", written(Receipt.refused("o-1", "cup: is missing")));
    assertFits(
        "readings",
        written(
            List.of(
                new SenmlRecord("back-room/", 1802592000.0, "A1/mass", "g", 262.1),
                new SenmlRecord(null, null, "air/temperature", "Cel", 20.5))));
    var tanks = new TreeMap<String, Double>();
    tanks.put("plain", 9000.0);
    assertFits(
        "bench",
        written(
            new BenchStatus(AT, 20.5, null, null, 4.5, tanks, List.of("*", "A1"), 300, "0.1.0")));
    assertFits("cup", written(cup()));
  }

  @Test
  void aBeatFits() {
    for (Beat.Doing doing : Beat.Doing.values()) {
      assertFits("beat", written(new Beat(AT, "5f0c-1", 12, doing, 3.25, 300, 0)));
    }
    assertEquals(
        ("{'at':'2027-02-14T08:00:00Z','instance':'5f0c-1','tick':0,'doing':'starting',"
                + "'for_s':61.5,'period_s':300.0,'starts_in_vain':3}")
            .replace('\'', '"'),
        Json.written(new Beat(AT, "5f0c-1", 0, Beat.Doing.STARTING, 61.5, 300, 3)));
    assertDoesNotFit("beat", written(new Beat(AT, "5f0c-1", -1, Beat.Doing.WAITING, 0, 300, 0)));
    assertDoesNotFit("beat", written(new Beat(AT, "\n", 1, Beat.Doing.WAITING, 0, 300, 0)));
  }

  private static CupStatus cup() {
    return new CupStatus(
        AT,
        "A1",
        "blackcurrant",
        RootStage.TOUGHENED,
        CupActivity.HELD,
        262.1,
        0.52,
        0.01,
        null,
        null,
        AT,
        AT,
        AT,
        true,
        0.4,
        401.9,
        271.8,
        -0.18,
        0.05,
        0.5,
        0.75,
        127.7,
        30.0,
        5.0,
        new CupStatus.NextFeed(
            0.2448,
            75.0,
            0.769,
            new CupStatus.Told("strength", 101.1, 75.0, "mg/L N", "most-n", "At most 75 mg/L N.")),
        new CupStatus.Rooting(
            null,
            new CupStatus.LikelyDay(
                LocalDate.parse("2027-02-20"),
                LocalDate.parse("2027-02-26"),
                LocalDate.parse("2027-03-07"))),
        new CupStatus.LittleAir(0.12, 0.15, "By mix and vessel it drains to 12 % air."),
        List.of(new CupStatus.Told("soak", 300, 720, "s", "It soaks for 7 more minutes.")));
  }

  @Test
  void everyKindOfEventFits() {
    Dose dose = new Dose("A1", 15, 15, 0.25, "due", "given");
    assertFits("event", written(new Event("e-1", 1, AT, "dose", "A1", written(dose))));
    assertFits("event", written(new Event("e-1", 2, AT, "alert", "A2", written(ALERT))));
    assertFits(
        "event", written(new Event("e-1", 3, AT, "receipt", null, written(Receipt.done("o-1")))));
    assertFits(
        "event",
        written(
            new Event(
                "e-1",
                4,
                AT,
                "change",
                "A1",
                Json.MAPPER.createObjectNode().put("stage", "white"))));
    Decision held =
        new Decision(
            CupActivity.HELD,
            301.2,
            0.62,
            1.4,
            null,
            0.25,
            0.8,
            List.of(new CupStatus.Told("hold", 20, 0, "h", "on hold for another 20.0 h")));
    assertFits("event", written(new Event("e-1", 6, AT, "decision", "A1", written(held))));
    assertDoesNotFit("event", written(new Event("e-1", 6, AT, "decision", null, written(held))));
    assertDoesNotFit("event", written(new Event("e-1", 5, AT, "dose", "A1", written(ALERT))));
    assertDoesNotFit("event", written(new Event("e-1", 0, AT, "dose", "A1", written(dose))));
  }

  @Test
  void aPackWithoutItsBaseDoesNotFit() {
    assertDoesNotFit(
        "readings", written(List.of(new SenmlRecord(null, null, "A1/mass", "g", 262.1))));
    assertDoesNotFit("readings", written(List.of()));
  }
}

package dev.cupwarden.host.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.BenchStatus;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.Names;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;

/** Understands one message by its topic; strict, since what is stored once stays. */
final class MessageReader {
  private static final int MOST_BYTES = 262_144;
  private static final double LONGEST_S = 1e9;
  private static final Set<String> PRESENCES = Set.of("online", "offline");
  private static final Set<String> OUTCOMES = Set.of("taken", "refused", "done");
  private static final Set<String> ALERT_STATES = Set.of("warned", "raised", "cleared");

  /** As the wire's mapper, and without turning 1.5 into 1, "1" into 1, or nothing into 0. */
  private static final JsonMapper STRICT =
      Json.MAPPER
          .rebuild()
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_NUMBERS_FOR_ENUMS)
          .addModule(new SimpleModule().addDeserializer(Instant.class, new StrictTime()))
          .build();

  private final SenmlReader senml = new SenmlReader(STRICT);

  /**
   * Reads a message.
   *
   * @throws MalformedException if it is not what its topic promises
   */
  BenchMessage read(String topic, byte[] payload) throws MalformedException {
    String[] parts = partsOf(topic);
    String bench = named("bench", parts[0]);
    String kind = parts[1];
    if (parts.length == 3) {
      require(kind.equals("cups"), "no such topic");
      return cup(bench, named("cup", parts[2]), payload);
    }
    return switch (kind) {
      case "presence" -> here(bench, payload);
      case "readings" -> new BenchMessage.Measured(bench, senml.read(bench, treeOf(payload)));
      case "bench" -> bench(bench, payload);
      case "setup" -> setUp(bench, payload);
      case "beat" -> beating(bench, payload);
      case "events" -> happened(bench, payload);
      case "receipts" -> new BenchMessage.Answered(bench, receipt(treeOf(payload)));
      case "orders", "kept" -> new BenchMessage.ByAHost(bench);
      default -> throw new MalformedException("no such topic");
    };
  }

  /**
   * The place in its journal of an event that could not be read otherwise, so that what comes after
   * it is not held up.
   *
   * @return empty if that cannot be read either, or the message is no event
   */
  Optional<Numbered> numberOf(String topic, byte[] payload) {
    try {
      String[] parts = partsOf(topic);
      if (parts.length != 2 || !parts[1].equals("events")) {
        return Optional.empty();
      }
      JsonNode event = treeOf(payload);
      String epoch = id("epoch", event.path("epoch").asText());
      JsonNode seq = event.path("seq");
      require(
          event.path("epoch").isTextual() && seq.isIntegralNumber() && seq.canConvertToLong(),
          "no number");
      require(seq.longValue() >= 1, "no number");
      return Optional.of(new Numbered(named("bench", parts[0]), epoch, seq.longValue()));
    } catch (MalformedException nothing) {
      return Optional.empty();
    }
  }

  /** Where an event stands in a journal of its bench. */
  record Numbered(String bench, String epoch, long seq) {}

  private static String[] partsOf(String topic) throws MalformedException {
    require(topic.startsWith(Topics.ROOT), "no such topic");
    String[] parts = topic.substring(Topics.ROOT.length()).split("/", -1);
    require(parts.length == 2 || parts.length == 3, "no such topic");
    return parts;
  }

  private static String named(String what, String name) throws MalformedException {
    require(Names.isSafe(name), what + ": " + Names.RULE);
    return name;
  }

  private static String id(String what, String id) throws MalformedException {
    require(Names.isId(id), what + ": " + Names.ID_RULE);
    return id;
  }

  private static void require(boolean so, String otherwise) throws MalformedException {
    if (!so) {
      throw new MalformedException(otherwise);
    }
  }

  private static <T> T there(T value, String field) throws MalformedException {
    require(value != null, field + " is missing");
    return value;
  }

  private static JsonNode treeOf(byte[] payload) throws MalformedException {
    require(payload.length > 0, "empty");
    require(payload.length <= MOST_BYTES, payload.length + " bytes, more than " + MOST_BYTES);
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(payload)).toString();
      JsonNode tree = STRICT.readTree(text);
      requireFinite(tree);
      return tree;
    } catch (CharacterCodingException binary) {
      throw new MalformedException("not UTF-8");
    } catch (JsonProcessingException broken) {
      throw new MalformedException(MalformedJson.sentence(broken));
    }
  }

  private static void requireFinite(JsonNode node) throws MalformedException {
    if (node.isNumber()) { // A whole number, too, may have more digits than a double holds.
      require(Double.isFinite(node.doubleValue()), "a number is too large");
    }
    for (JsonNode child : node) {
      requireFinite(child);
    }
  }

  private static <T> T as(JsonNode tree, Class<T> type) throws MalformedException {
    require(tree.isObject(), "expected an object");
    try {
      return STRICT.treeToValue(tree, type);
    } catch (JsonProcessingException | IllegalArgumentException wrong) {
      throw new MalformedException(MalformedJson.sentence(wrong));
    }
  }

  private static BenchMessage cup(String bench, String cup, byte[] payload)
      throws MalformedException {
    if (payload.length == 0) {
      return new BenchMessage.CupGone(bench, cup);
    }
    CupStatus status = as(treeOf(payload), CupStatus.class);
    there(status.at(), "at");
    there(status.state(), "state");
    require(cup.equals(status.cup()), "cup: the message is of another cup than its topic");
    return new BenchMessage.Cup(bench, status);
  }

  private static BenchMessage here(String bench, byte[] payload) throws MalformedException {
    Presence presence = as(treeOf(payload), Presence.class);
    require(
        presence.state() != null && PRESENCES.contains(presence.state()),
        "state: expected online or offline");
    there(presence.since(), "since");
    return new BenchMessage.Here(bench, presence);
  }

  private static BenchMessage bench(String bench, byte[] payload) throws MalformedException {
    BenchStatus status = as(treeOf(payload), BenchStatus.class);
    there(status.at(), "at");
    return new BenchMessage.Bench(bench, status);
  }

  private static BenchMessage beating(String bench, byte[] payload) throws MalformedException {
    Beat beat = as(treeOf(payload), Beat.class);
    there(beat.at(), "at");
    there(beat.doing(), "doing");
    id("instance", there(beat.instance(), "instance"));
    require(beat.tick() >= 0, "tick: expected 0 or more");
    require(beat.startsInVain() >= 0, "starts_in_vain: expected 0 or more");
    require(beat.forS() >= 0 && beat.forS() <= LONGEST_S, "for_s: expected seconds");
    require(beat.periodS() > 0 && beat.periodS() <= LONGEST_S, "period_s: expected seconds");
    return new BenchMessage.Beating(bench, beat);
  }

  private static BenchMessage setUp(String bench, byte[] payload) throws MalformedException {
    BenchSetup setup = as(treeOf(payload), BenchSetup.class);
    there(setup.at(), "at");
    for (var cup : there(setup.cups(), "cups").entrySet()) {
      named("cups", cup.getKey());
      there(there(cup.getValue(), "cups." + cup.getKey()).plant(), "plant");
    }
    return new BenchMessage.SetUp(bench, setup);
  }

  private static BenchMessage happened(String bench, byte[] payload) throws MalformedException {
    Event event = as(treeOf(payload), Event.class);
    id("epoch", there(event.epoch(), "epoch"));
    require(event.seq() >= 1, "seq: expected 1 or more");
    there(event.at(), "at");
    String kind = there(event.kind(), "kind");
    require(kind.matches("[a-z-]{1,32}"), "kind: expected up to 32 letters");
    if (event.cup() != null) {
      named("cup", event.cup());
    }
    JsonNode data = there(event.data(), "data");
    Optional<AlertNotice> alert =
        kind.equals("alert") ? Optional.of(alert(data)) : Optional.empty();
    Optional<Receipt> receipt =
        kind.equals("receipt") ? Optional.of(receipt(data)) : Optional.empty();
    return new BenchMessage.Happened(bench, event, alert, receipt);
  }

  private static AlertNotice alert(JsonNode data) throws MalformedException {
    AlertNotice notice = as(data, AlertNotice.class);
    id("code", there(notice.code(), "code"));
    require(
        notice.state() != null && ALERT_STATES.contains(notice.state()),
        "state: expected warned, raised or cleared");
    there(notice.since(), "since");
    return notice;
  }

  private static Receipt receipt(JsonNode tree) throws MalformedException {
    Receipt receipt = as(tree, Receipt.class);
    require(
        receipt.outcome() != null && OUTCOMES.contains(receipt.outcome()),
        "outcome: expected taken, refused or done");
    if (receipt.id() != null) {
      id("id", receipt.id());
    }
    return receipt;
  }
}

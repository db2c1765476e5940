package dev.cupwarden.host.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.alerts.AlertFigures;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * What is told at once: one or more changes of alerts of one bench, the gravest first.
 *
 * @param id the same at each try, so that who gets it twice can tell
 */
record Message(String id, String bench, List<AlertNotice> notices) {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

  Message {
    notices = notices.stream().sorted(Comparator.comparing(notice -> -notice.severity())).toList();
  }

  String subject() {
    String first = headline(notices.get(0));
    String more = notices.size() == 1 ? "" : " and " + (notices.size() - 1) + " more";
    return whose() + ": " + first + more;
  }

  /** An alert of the host's own is of no bench. */
  private String whose() {
    return bench.isEmpty() ? "Host" : "Bench " + bench;
  }

  private static String headline(AlertNotice notice) {
    String what = notice.code().replace('-', ' ');
    String where =
        notice.cup() != null
            ? "cup " + notice.cup() + ": "
            : notice.tank() != null ? "tank " + notice.tank() + ": " : "";
    String how = notice.state().equals("cleared") ? " is over" : notice.again() ? ", still" : "";
    return where + what + how;
  }

  /** For a person: what, since when, value, limit, what to do. */
  String text() {
    StringBuilder text = new StringBuilder();
    for (AlertNotice notice : notices) {
      String headline = headline(notice);
      text.append(headline.substring(0, 1).toUpperCase(Locale.ROOT))
          .append(headline.substring(1))
          .append("\nSince ")
          .append(TIME.format(notice.since()));
      AlertFigures.words(notice).ifPresent(found -> text.append("\nFound ").append(found));
      if (!notice.state().equals("cleared")) {
        text.append("\nWhat to do: ").append(notice.whatToDo());
      }
      text.append("\n\n");
    }
    String from = bench.isEmpty() ? "the host" : "the bench " + bench;
    return text.append("From ").append(from).append(".\n").toString();
  }

  /** For a program. */
  byte[] json() {
    ObjectNode body = Json.MAPPER.createObjectNode().put("id", id).put("bench", bench);
    ArrayNode alerts = body.putArray("alerts");
    notices.forEach(notice -> alerts.add(Json.MAPPER.<ObjectNode>valueToTree(notice)));
    try {
      return Json.MAPPER.writeValueAsBytes(body);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("a notice cannot be written", impossible);
    }
  }
}

package dev.cupwarden.host.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PrivateFiles;
import dev.cupwarden.host.watch.StoreWatch;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Whom to tell of alerts, and how; read from a YAML file.
 *
 * @param mail by e-mail, or null
 * @param webhook by HTTP, or null
 * @param quiet when only what is urgent is told, or null
 * @param urgent codes that are told at any time; null for the usual ones
 * @param groupS seconds to wait for more of the same bench; null for 60
 */
public record NoticeSettings(
    Mail mail, Webhook webhook, QuietHours quiet, Set<String> urgent, Integer groupS) {
  /**
   * Water where none belongs, a pump that runs, frost, nobody there: it cannot wait for morning.
   */
  private static final Set<String> USUALLY_URGENT =
      Set.of(
          AlertCode.LEAK.word(),
          AlertCode.VALVE_LEAKING.word(),
          AlertCode.PUMP_RUNNING_ON.word(),
          AlertCode.FROST.word(),
          AlertCode.CONTROLLER_SILENT.word(),
          AlertCode.TWO_CONTROLLERS.word(),
          StoreWatch.CODE);

  private static final int USUAL_GROUP_S = 60;
  private static final int LONGEST_GROUP_S = 3600;

  /** How the connection to a mail server is made safe. */
  public enum Security {
    STARTTLS,
    TLS,
    NONE
  }

  /**
   * An SMTP server and who writes to whom.
   *
   * @param security null for STARTTLS, which is then demanded
   * @param passwordFile holds the password on its first line
   */
  public record Mail(
      String host,
      int port,
      Security security,
      String user,
      Path passwordFile,
      String from,
      List<String> to) {}

  /**
   * A server that takes notices by POST.
   *
   * @param secretFile holds the shared secret by which each is signed, on its first line
   */
  public record Webhook(URI url, Path secretFile) {}

  public NoticeSettings {
    urgent = urgent == null ? USUALLY_URGENT : Set.copyOf(urgent);
    groupS = groupS == null ? USUAL_GROUP_S : groupS;
    require(
        groupS >= 0 && groupS <= LONGEST_GROUP_S,
        "group_s: expected 0 to " + LONGEST_GROUP_S + " seconds");
    require(mail != null || webhook != null, "expected mail or webhook, or both");
    checkMail(mail);
    checkWebhook(webhook);
  }

  private static void checkMail(Mail mail) {
    if (mail == null) {
      return;
    }
    require(mail.host() != null && !mail.host().isBlank(), "mail.host: expected a server's name");
    require(mail.port() >= 1 && mail.port() <= 65_535, "mail.port: expected 1 to 65535");
    require(isAddress(mail.from()), "mail.from: expected an e-mail address");
    require(
        mail.to() != null && !mail.to().isEmpty() && mail.to().stream().allMatch(a -> isAddress(a)),
        "mail.to: expected a list of e-mail addresses");
    require(
        (mail.user() == null) == (mail.passwordFile() == null),
        "mail: user and password_file go together");
    require(
        mail.security() != Security.NONE || mail.user() == null || isLoopback(mail.host()),
        "mail.security: a password is not sent in the clear to another machine");
  }

  private static void checkWebhook(Webhook webhook) {
    if (webhook == null) {
      return;
    }
    URI url = webhook.url();
    boolean safe =
        url != null
            && url.getHost() != null
            && ("https".equals(url.getScheme())
                || ("http".equals(url.getScheme()) && isLoopback(url.getHost())));
    require(safe, "webhook.url: expected https://…, or http:// on this machine");
    require(webhook.secretFile() != null, "webhook.secret_file: expected a file with a secret");
  }

  private static boolean isAddress(String text) {
    return text != null && text.matches("[^@\\s]+@[^@\\s]+");
  }

  private static boolean isLoopback(String host) {
    return Set.of("localhost", "127.0.0.1", "[::1]", "::1").contains(host);
  }

  private static void require(boolean so, String otherwise) {
    if (!so) {
      throw new HostException(otherwise + ".");
    }
  }

  /** How long a notice waits for others. */
  public Duration grouping() {
    return Duration.ofSeconds(groupS);
  }

  /**
   * Reads a file.
   *
   * @throws HostException if it cannot be read or says something that cannot be meant
   */
  public static NoticeSettings read(Path file) {
    JsonNode node = NoticeYaml.read(file);
    try {
      return Json.MAPPER.treeToValue(node, NoticeSettings.class);
    } catch (JsonMappingException wrong) {
      throw new HostException(file + ": " + sentenceOf(wrong), wrong);
    } catch (JsonProcessingException | IllegalArgumentException wrong) {
      throw new HostException(file + ": not understood here.", wrong);
    }
  }

  private static String sentenceOf(JsonMappingException wrong) {
    if (wrong.getCause() instanceof HostException ours) {
      return ours.getMessage();
    }
    String where =
        wrong.getPath().stream()
            .map(step -> String.valueOf(step.getFieldName()))
            .collect(Collectors.joining("."));
    return where + ": not understood here.";
  }

  /** The first line of a file that holds a secret. */
  static String secret(Path file) {
    try {
      Optional<String> line = PrivateFiles.secretIn(file).lines().findFirst().map(String::strip);
      return line.filter(text -> !text.isEmpty())
          .orElseThrow(() -> new HostException("The file " + file + " holds no secret."));
    } catch (IOException unreadable) {
      throw new HostException("The file " + file + " cannot be read.", unreadable);
    }
  }
}

package dev.cupwarden.host.notify;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Notices with a real SMTP server and a real HTTP server; time is moved by hand. */
class NoticeTest {
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final AtomicInteger answer = new AtomicInteger(200);
  private final List<Posted> posted = new CopyOnWriteArrayList<>();
  @TempDir Path folder;
  private GreenMail mail;
  private HttpServer web;
  private Store store;

  private record Posted(Map<String, List<String>> headers, String body) {
    String header(String name) {
      return headers.entrySet().stream()
          .filter(each -> each.getKey().equalsIgnoreCase(name))
          .findFirst()
          .orElseThrow()
          .getValue()
          .get(0);
    }
  }

  @BeforeEach
  void start() throws IOException {
    mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mail.start();
    web = HttpServer.create(new InetSocketAddress(InetAddress.getByName("127.0.0.1"), 0), 8);
    web.createContext("/", this::take);
    web.start();
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    Files.writeString(folder.resolve("secret"), "a shared secret\n");
  }

  @AfterEach
  void stop() {
    store.close();
    web.stop(0);
    mail.stop();
  }

  private void take(HttpExchange exchange) throws IOException {
    posted.add(
        new Posted(
            Map.copyOf(exchange.getRequestHeaders()),
            new String(
                exchange.getRequestBody().readAllBytes(),
                java.nio.charset.StandardCharsets.UTF_8)));
    exchange.sendResponseHeaders(answer.get(), -1);
    exchange.close();
  }

  private String mailPart() {
    return """
        mail:
          host: 127.0.0.1
          port: %d
          security: NONE
          from: bench@example.org
          to: [grower@example.org]
        """
        .formatted(mail.getSmtp().getPort());
  }

  private String webhookPart() {
    return """
        webhook:
          url: http://127.0.0.1:%d/alerts
          secret_file: %s
        """
        .formatted(web.getAddress().getPort(), folder.resolve("secret"));
  }

  private NoticeSettings settings(String yaml) {
    try {
      return NoticeSettings.read(Files.writeString(folder.resolve("notices.yaml"), yaml));
    } catch (IOException failed) {
      throw new IllegalStateException(failed);
    }
  }

  private NoticeService desk(String yaml) {
    return new NoticeService(store, now::get, now::get, settings(yaml), event -> {});
  }

  private void alert(NoticeService notices, String code, String before, String state) {
    AlertNotice notice =
        new AlertNotice(code, "A1", state, EIGHT, 49.0, 48.5, "Lift the cup out of its water.");
    store.write(handle -> notices.alert(handle, "sill", before, notice));
  }

  private void later(Duration time) {
    now.updateAndGet(before -> before.plus(time));
  }

  @Test
  void aMailTellsWhatSinceWhenValueLimitAndWhatToDo() throws Exception {
    NoticeService notices = desk(mailPart());
    alert(notices, "wet-too-long", "cleared", "raised");
    notices.run();
    assertEquals(0, mail.getReceivedMessages().length, "it waits a minute for others");
    later(Duration.ofMinutes(1));
    notices.run();
    MimeMessage message = mail.getReceivedMessages()[0];
    String text = GreenMailUtil.getBody(message);
    assertEquals("Bench sill: cup A1: wet too long", message.getSubject());
    for (String part :
        List.of("Since 2027-02-14 08:00 UTC", "Found 49 h, limit 48.5 h", "Lift the cup")) {
      assertTrue(text.contains(part), text);
    }
    later(Duration.ofDays(1));
    notices.run();
    assertEquals(1, mail.getReceivedMessages().length, "told once");
  }

  @Test
  void whatComesTogetherIsToldTogetherAndAFirstWarningNotAtAll() throws Exception {
    NoticeService notices = desk(mailPart());
    alert(notices, "cold", "cleared", "raised");
    alert(notices, "tank-low", "cleared", "warned");
    later(Duration.ofSeconds(30));
    alert(notices, "near-dry", "warned", "raised");
    alert(notices, "heat", "raised", "cleared");
    alert(notices, "clock", "warned", "cleared");
    later(Duration.ofMinutes(2));
    notices.run();
    assertEquals(1, mail.getReceivedMessages().length);
    String text = GreenMailUtil.getBody(mail.getReceivedMessages()[0]);
    assertTrue(text.contains("near dry") && text.contains("heat is over"), text);
    assertFalse(text.contains("tank low") || text.contains("clock"), text);
  }

  @Test
  void atNightOnlyWhatIsUrgentIsTold() {
    NoticeService notices =
        desk(mailPart() + "quiet: {from: \"22:00\", to: \"07:00\", zone: Europe/Berlin}\n");
    now.set(Instant.parse("2027-02-14T22:30:00Z"));
    alert(notices, "tank-low", "cleared", "raised");
    later(Duration.ofHours(6));
    notices.run();
    assertEquals(0, mail.getReceivedMessages().length);
    alert(notices, "leak", "cleared", "raised");
    later(Duration.ofMinutes(1));
    notices.run();
    assertEquals(1, mail.getReceivedMessages().length);
    now.set(Instant.parse("2027-02-15T06:00:00Z"));
    notices.run();
    assertEquals(2, mail.getReceivedMessages().length, "seven o'clock in the grower's zone");
  }

  @Test
  void aWebhookIsSignedAndSentAgainUnderTheSameKeyUntilItIsTaken() throws Exception {
    NoticeService notices = desk(webhookPart());
    alert(notices, "frost", "cleared", "raised");
    answer.set(503);
    later(Duration.ofMinutes(1));
    notices.run();
    notices.run();
    assertEquals(1, posted.size(), "not at once again");
    answer.set(204);
    later(Duration.ofMinutes(1));
    // A host that was started anew goes on where the other stopped.
    desk(webhookPart()).run();
    assertEquals(2, posted.size());
    later(Duration.ofHours(2));
    notices.run();
    assertEquals(2, posted.size());
    assertEquals(posted.get(0).header("Idempotency-Key"), posted.get(1).header("Idempotency-Key"));
    JsonNode body = Json.MAPPER.readTree(posted.get(1).body());
    assertEquals("frost", body.at("/alerts/0/code").asText());
    Map<String, String> expected =
        new HttpSignature("a shared secret")
            .headers(
                URI.create("http://127.0.0.1:" + web.getAddress().getPort() + "/alerts"),
                posted.get(1).header("Idempotency-Key"),
                posted.get(1).body().getBytes(java.nio.charset.StandardCharsets.UTF_8),
                now.get().minus(Duration.ofHours(2)));
    expected.forEach((name, value) -> assertEquals(value, posted.get(1).header(name), name));
  }

  /** The worked example of RFC 9421, appendix B.2.5 and its secret of B.1.5. */
  @Test
  void aSignatureIsThatOfTheStandardsExample() {
    byte[] secret =
        java.util.Base64.getDecoder()
            .decode(
                "uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==");
    String base =
        "\"date\": Tue, 20 Apr 2021 02:07:55 GMT\n"
            + "\"@authority\": example.com\n"
            + "\"content-type\": application/json\n"
            + "\"@signature-params\": (\"date\" \"@authority\" \"content-type\")"
            + ";created=1618884473;keyid=\"test-shared-secret\"";
    assertEquals(
        "pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=", new HttpSignature(secret).signed(base));
  }

  @Test
  void whatNobodyTakesIsTriedHourlyAndNeverGivenUp() {
    NoticeService notices = desk(webhookPart());
    answer.set(500);
    alert(notices, "frost", "cleared", "raised");
    for (int hour = 0; hour < 200; hour++) {
      later(Duration.ofHours(1));
      notices.run();
    }
    assertEquals(1, store.notices().waiting());
    assertEquals(200, posted.size());
  }

  @Test
  void aTestNoticeSaysOfEachWayWhatBecameOfIt() {
    answer.set(401);
    Map<String, String> outcomes =
        NoticeService.test(settings(mailPart() + webhookPart()), now::get);
    assertEquals(NoticeService.SENT, outcomes.get("mail"));
    assertEquals("127.0.0.1 answered 401.", outcomes.get("webhook"));
  }

  @Test
  void settingsThatCannotBeMeantAreRefusedInASentence() {
    for (String yaml :
        List.of(
            "",
            "[]",
            "mail: [",
            "mail: {host: x, port: 0, from: a@b, to: [c@d]}",
            "mail: {host: x, port: 25, from: nobody, to: [c@d]}",
            "mail: {host: x, port: 25, from: a@b, to: []}",
            "mail: {host: x, port: 25, from: a@b, to: [c@d], user: me}",
            "mail: {host: x, port: 25, from: a@b, to: [c@d], security: NONE, user: me,"
                + " password_file: y}",
            "webhook: {url: \"http://example.org/\", secret_file: y}",
            "webhook: {url: \"https://example.org/\"}",
            "webhook: {url: \"https://example.org/\", secret_file: y, extra: 1}",
            "webhook: {url: \"https://example.org/\", secret_file: y}\n"
                + "quiet: {from: \"22\", to: \"7\", zone: x}")) {
      HostException refused = assertThrows(HostException.class, () -> settings(yaml), yaml);
      assertTrue(refused.getMessage().endsWith("."), refused.getMessage());
      assertFalse(refused.getMessage().contains("dev.cupwarden"), refused.getMessage());
    }
  }
}

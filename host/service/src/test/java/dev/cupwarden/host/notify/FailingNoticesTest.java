package dev.cupwarden.host.notify;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.icegreen.greenmail.user.UserException;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A mail server whose mailboxes are full, and later one that takes all. */
class FailingNoticesTest {
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final List<LiveEvent> live = new ArrayList<>();
  @TempDir Path folder;
  private GreenMail mail;
  private Store store;
  private NoticeService notices;
  private int port;

  @BeforeEach
  void start() throws IOException {
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      port = free.getLocalPort();
    }
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    Path file =
        Files.writeString(
            folder.resolve("notices.yaml"),
            """
            mail:
              host: 127.0.0.1
              port: %d
              security: NONE
              from: bench@example.org
              to: [grower@example.org]
            """
                .formatted(port));
    notices = new NoticeService(store, now::get, now::get, NoticeSettings.read(file), live::add);
    server(true);
  }

  @AfterEach
  void stop() {
    mail.stop();
    store.close();
  }

  private void server(boolean refuses) {
    mail = new GreenMail(new ServerSetup(port, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    if (refuses) {
      mail.getUserManager()
          .setMessageDeliveryHandler(
              (message, address) -> {
                throw new UserException("full");
              });
    }
    mail.start();
  }

  @Test
  void mailThatIsRefusedIsAnAlertOnThePageTriedHourlyForDaysAndOverOnceOneGoesThrough()
      throws Exception {
    alert(raised("near-dry", "A1"), "cleared");
    later(Duration.ofMinutes(2));
    notices.run();
    AlertRow open = onlyOpen();
    JsonNode told = Json.MAPPER.readTree(open.notice());
    assertEquals("notices-failing", told.path("code").asText());
    assertTrue(told.path("do").asText().startsWith("Notices by mail do not arrive"), open.notice());
    assertEquals(1, live.size());
    for (int hour = 0; hour < 24 * 5; hour++) {
      later(Duration.ofHours(1));
      notices.run();
    }
    assertEquals(1, store.notices().waiting(), "never given up");
    int tries = store.notices().due(now.get().plus(Duration.ofHours(1))).get(0).tries();
    assertTrue(tries >= 24 * 5, "tries: " + tries);
    assertEquals(6, live.size(), "told again daily");
    assertTrue(live.get(5).json().contains("\"again\":true"), live.get(5).json());
    mail.stop();
    server(false);
    later(Duration.ofHours(1));
    notices.run();
    assertEquals(1, mail.getReceivedMessages().length);
    assertEquals(List.of(), store.alerts().open("sill"));
    assertEquals(0, store.notices().waiting());
  }

  @Test
  void whatWasToldAgainMeanwhileComesOnceNotOnceForEachDay() throws Exception {
    alert(raised("near-dry", "A1"), "cleared");
    for (int day = 0; day < 5; day++) {
      later(Duration.ofDays(1));
      notices.run();
      alert(raised("near-dry", "A1").toldAgain(), "raised");
    }
    assertEquals(2, store.notices().waiting(), "its beginning and its latest telling");
    mail.stop();
    server(false);
    later(Duration.ofHours(2));
    notices.run();
    notices.run();
    assertEquals(2, mail.getReceivedMessages().length);
  }

  @Test
  void allThatIsToldAgainAtOnceIsOneMailAndEachTellingOneOfItsOwn() throws Exception {
    mail.stop();
    server(false);
    for (int day = 0; day < 2; day++) {
      for (int cup = 0; cup < 24; cup++) {
        alert(raised("near-dry", "A" + cup).toldAgain(), "raised");
      }
      later(Duration.ofMinutes(2));
      notices.run();
      later(Duration.ofDays(1));
    }
    assertEquals(2, mail.getReceivedMessages().length);
    String subject = mail.getReceivedMessages()[0].getSubject();
    assertTrue(subject.contains("near dry, still and 23 more"), subject);
    assertTrue(GreenMailUtil.getBody(mail.getReceivedMessages()[0]).contains("Cup A23"));
    assertTrue(
        !mail.getReceivedMessages()[0].getHeader("Message-ID")[0].equals(
            mail.getReceivedMessages()[1].getHeader("Message-ID")[0]));
  }

  private AlertRow onlyOpen() {
    List<AlertRow> open = store.alerts().open("sill");
    assertEquals(1, open.size());
    return open.get(0);
  }

  private static AlertNotice raised(String code, String cup) {
    return new AlertNotice(code, cup, "raised", EIGHT, 0.9, 0.85, "Water it by hand.");
  }

  private void alert(AlertNotice notice, String before) {
    store.write(handle -> notices.alert(handle, "sill", before, notice));
  }

  private void later(Duration time) {
    now.updateAndGet(before -> before.plus(time));
  }
}

package dev.cupwarden.host.web;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostInTest;
import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Requests refused for their body, or in spite of it, byte by byte as they go over the wire. */
class RefusedBodyTest {
  private static final String ORDER =
      "POST /api/benches/any/orders HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n"
          + "Content-Type: application/json\r\n";
  private static final Duration LONGER_THAN_AN_ANSWER_TAKES = Duration.ofMillis(500);

  @TempDir static Path data;
  private static HostInTest host;

  @BeforeAll
  static void start() throws InterruptedException {
    host = new HostInTest(data);
  }

  @AfterAll
  static void stop() {
    host.close();
  }

  /** A browser sends its whole order before it looks; an answer lost by then tells it nothing. */
  @Test
  void whoSendsTooMuchSlowlyStillGetsTheSentence() throws IOException {
    String half = " ".repeat(1 << 19);
    String head = ORDER + "Content-Length: " + (1 << 20) + "\r\n\r\n";
    assertAnswer("413", "A request has 65536 bytes at most.", answer(head + half, half));
  }

  @Test
  void aBrokenBodyIsTheSendersFault() throws IOException {
    String head = ORDER + "Transfer-Encoding: chunked\r\n\r\n";
    assertAnswer(
        "400", "The request's body is cut short or broken.", answer(head + "no length\r\n"));
  }

  @Test
  void aMethodThatDoesNothingIsNamed() throws IOException {
    String head = ORDER.replace("POST", "PUT") + "Content-Length: 2\r\n\r\n";
    assertAnswer("405", "PUT does nothing at /api/benches/any/orders.", answer(head + "{}"));
  }

  /** What the host says to parts sent so far apart that it could have answered the one before. */
  private static String answer(String first, String... later) throws IOException {
    try (Socket socket = new Socket("127.0.0.1", host.uri("").getPort())) {
      socket.getOutputStream().write(first.getBytes(StandardCharsets.US_ASCII));
      for (String part : later) {
        Awaitility.await().pollDelay(LONGER_THAN_AN_ANSWER_TAKES).until(() -> true);
        socket.getOutputStream().write(part.getBytes(StandardCharsets.US_ASCII));
      }
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static void assertAnswer(String status, String sentence, String answer) {
    assertTrue(answer.startsWith("HTTP/1.1 " + status + " "), answer);
    assertTrue(answer.endsWith("{\"error\":\"" + sentence + "\"}"), answer);
  }
}

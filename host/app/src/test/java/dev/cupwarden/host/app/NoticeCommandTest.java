package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code notice --test} with a real SMTP server and a real receiver of webhooks. */
class NoticeCommandTest {
  private static final int FREE = 0;
  private final AtomicInteger answer = new AtomicInteger(204);
  private final List<String> signatures = new CopyOnWriteArrayList<>();
  private final List<String> bodies = new CopyOnWriteArrayList<>();
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  @TempDir Path folder;
  private GreenMail mail;
  private HttpServer web;

  @BeforeEach
  void start() throws IOException {
    mail = new GreenMail(new ServerSetup(FREE, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mail.start();
    web = HttpServer.create(new InetSocketAddress(InetAddress.getByName("127.0.0.1"), FREE), 8);
    web.createContext("/", this::take);
    web.start();
    Files.writeString(folder.resolve("secret"), "a shared secret\n");
    Files.writeString(
        folder.resolve("notices.yaml"),
        """
        mail: {host: 127.0.0.1, port: %d, security: NONE, from: bench@example.org, to: [grower@example.org]}
        webhook: {url: "http://127.0.0.1:%d/alerts", secret_file: %s}
        """
            .formatted(
                mail.getSmtp().getPort(), web.getAddress().getPort(), folder.resolve("secret")));
  }

  @AfterEach
  void stop() {
    web.stop(0);
    mail.stop();
  }

  private void take(HttpExchange exchange) throws IOException {
    signatures.addAll(exchange.getRequestHeaders().getOrDefault("Signature", List.of()));
    bodies.add(
        new String(
            exchange.getRequestBody().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8));
    exchange.sendResponseHeaders(answer.get(), -1);
    exchange.close();
  }

  private int run() {
    CommandLine command = HostCommand.commandLine();
    command.setErr(new PrintWriter(err, true));
    command.setOut(new PrintWriter(out, true));
    return command.execute(
        "notice", "--test", "--notices", folder.resolve("notices.yaml").toString());
  }

  @Test
  void aTestNoticeArrivesByMailAndWebhook() throws Exception {
    assertEquals(0, run(), out.toString() + err);
    assertEquals(List.of("mail: sent", "webhook: sent"), out.toString().lines().sorted().toList());
    assertEquals("", err.toString());
    assertEquals(1, mail.getReceivedMessages().length);
    assertTrue(
        mail.getReceivedMessages()[0].getSubject().contains("test"),
        mail.getReceivedMessages()[0].getSubject());
    String text = GreenMailUtil.getBody(mail.getReceivedMessages()[0]);
    assertTrue(text.contains("test"), text);
    assertEquals(1, bodies.size());
    JsonNode body = Json.MAPPER.readTree(bodies.get(0));
    assertEquals(1, body.path("alerts").size(), body.toString());
    assertEquals(1, signatures.size(), "it is signed");
  }

  @Test
  void ofTwoWaysOneThatFailsIsToldAndEndsWithOne() throws Exception {
    answer.set(500);
    assertEquals(1, run());
    assertEquals(
        List.of("mail: sent", "webhook: 127.0.0.1 answered 500."),
        out.toString().lines().sorted().toList());
    assertEquals(1, mail.getReceivedMessages().length);
  }
}

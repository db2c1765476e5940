package dev.cupwarden.host.notify;

import dev.cupwarden.host.notify.NoticeSettings.Webhook;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.time.InstantSource;

/** By POST to a server, signed by a shared secret as RFC 9421 says. */
final class WebhookChannel implements NoticeChannel {
  private static final Duration LIMIT = Duration.ofSeconds(15);
  private static final int LEAST_SUCCESS = 200;
  private static final int LEAST_REDIRECT = 300;

  private final Webhook settings;
  private final HttpSignature signature;
  private final InstantSource clock;
  private final HttpClient http =
      HttpClient.newBuilder()
          .connectTimeout(LIMIT)
          .followRedirects(HttpClient.Redirect.NEVER)
          .build();

  WebhookChannel(Webhook settings, InstantSource clock) {
    this.settings = settings;
    this.clock = clock;
    signature = new HttpSignature(NoticeSettings.secret(settings.secretFile()));
  }

  @Override
  public String name() {
    return "webhook";
  }

  @Override
  public void send(Message message) throws NotSentException {
    byte[] body = message.json();
    String key = '"' + message.id() + '"';
    HttpRequest.Builder request =
        HttpRequest.newBuilder(settings.url())
            .timeout(LIMIT)
            .header("Content-Type", "application/json")
            .header("Idempotency-Key", key)
            .POST(HttpRequest.BodyPublishers.ofByteArray(body));
    signature
        .headers(settings.url(), key, body, clock.instant())
        .forEach((name, value) -> request.header(name, value));
    try {
      HttpResponse<Void> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.discarding());
      if (answer.statusCode() < LEAST_SUCCESS || answer.statusCode() >= LEAST_REDIRECT) {
        throw new NotSentException(
            settings.url().getHost() + " answered " + answer.statusCode() + ".");
      }
    } catch (IOException failed) {
      throw new NotSentException(settings.url().getHost() + " cannot be reached.", failed);
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new NotSentException("The host was stopped while sending.", stopped);
    }
  }
}

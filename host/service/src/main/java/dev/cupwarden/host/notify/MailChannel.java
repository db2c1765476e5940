package dev.cupwarden.host.notify;

import dev.cupwarden.host.notify.NoticeSettings.Mail;
import dev.cupwarden.host.notify.NoticeSettings.Security;
import org.simplejavamail.MailException;
import org.simplejavamail.api.email.Email;
import org.simplejavamail.api.mailer.Mailer;
import org.simplejavamail.api.mailer.config.TransportStrategy;
import org.simplejavamail.email.EmailBuilder;
import org.simplejavamail.mailer.MailerBuilder;

/** By e-mail. */
final class MailChannel implements NoticeChannel {
  private static final int LIMIT_MS = 20_000;
  private final Mail settings;
  private final Mailer mailer;

  MailChannel(Mail settings) {
    this.settings = settings;
    String password =
        settings.passwordFile() == null ? null : NoticeSettings.secret(settings.passwordFile());
    TransportStrategy strategy =
        settings.security() == Security.TLS
            ? TransportStrategy.SMTPS
            : settings.security() == Security.NONE
                ? TransportStrategy.SMTP
                : TransportStrategy.SMTP_TLS;
    mailer =
        MailerBuilder.withSMTPServer(settings.host(), settings.port(), settings.user(), password)
            .withTransportStrategy(strategy)
            .withSessionTimeout(LIMIT_MS)
            .buildMailer();
  }

  @Override
  public String name() {
    return "mail";
  }

  @Override
  public void send(Message message) throws NotSentException {
    Email email =
        EmailBuilder.startingBlank()
            .from(settings.from())
            .toMultiple(settings.to())
            .withSubject(message.subject())
            .withPlainText(message.text())
            // The same at each try: a mailbox that has it already can tell.
            .fixingMessageId("<" + message.id() + "@cupwarden>")
            .buildEmail();
    try {
      mailer.sendMail(email).join();
    } catch (MailException | java.util.concurrent.CompletionException refused) {
      throw new NotSentException(
          "The mail server " + settings.host() + " did not take it: " + reasonOf(refused), refused);
    }
  }

  private static String reasonOf(Throwable thrown) {
    Throwable root = thrown;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return String.valueOf(root.getMessage()).lines().findFirst().orElse("no reason given");
  }
}

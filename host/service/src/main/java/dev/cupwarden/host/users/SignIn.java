package dev.cupwarden.host.users;

import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;

/** Gives a session to whoever knows a password, and tells whose a session is. */
public final class SignIn {
  /** A season is long, and a phone is in one pocket; a new password ends them all at once. */
  public static final Duration SESSION = Duration.ofDays(30);

  private static final int TOKEN_BYTES = 32;

  /** What an unknown name is checked against, so that it takes as long as a known one. */
  private static final String NOBODYS = Passwords.hash("nobody has this one".toCharArray());

  private final Store store;
  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();
  private final Attempts attempts;

  public SignIn(Store store, InstantSource clock) {
    this.store = store;
    this.clock = clock;
    this.attempts = new Attempts(clock);
  }

  /** A person in a session. */
  public record Person(String name, Role role) {}

  /** What came of it. */
  public sealed interface Outcome {
    /** In, with a token that only the browser keeps. */
    record In(Person person, String token) implements Outcome {
      @Override
      public String toString() {
        return "in as " + person.name();
      }
    }

    /** Name and password do not belong together. */
    record Wrong() implements Outcome {}

    /** Too many tries from there, or for that name: wait. */
    record TooOften(Duration pause) implements Outcome {}
  }

  /**
   * Tries a name and a password.
   *
   * @param from the address it comes from
   */
  public Outcome tryIn(String name, char[] password, String from) {
    Optional<Duration> wait = attempts.waitFor(name, from);
    if (wait.isPresent()) {
      return new Outcome.TooOften(wait.get());
    }
    Optional<UserRow> user = store.users().find(name);
    boolean right = Passwords.matches(password, user.map(UserRow::hash).orElse(NOBODYS));
    if (!right || user.isEmpty()) {
      attempts.failed(name, from);
      return new Outcome.Wrong();
    }
    attempts.succeeded(name, from);
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    Instant now = clock.instant();
    store.users().open(digest(token), name, now, now.plus(SESSION));
    return new Outcome.In(person(user.get()), token);
  }

  public Optional<Person> whose(String token) {
    return store.users().inSession(digest(token), clock.instant()).map(SignIn::person);
  }

  public void end(String token) {
    store.users().end(digest(token));
  }

  private static Person person(UserRow row) {
    return new Person(row.name(), Role.of(row.role()).orElse(Role.LOOK));
  }

  /** A token has 256 random bits: a plain digest cannot be turned round. */
  private static String digest(String token) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(token.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }
}

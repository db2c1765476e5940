package dev.cupwarden.host.users;

import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.Attempts.Who;
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
import java.util.concurrent.Semaphore;

/** Gives a session to whoever knows a password, and tells whose a session is. */
public final class SignIn {
  /** A season is long, and a phone is in one pocket; a new password ends them all at once. */
  public static final Duration SESSION = Duration.ofDays(30);

  private static final int TOKEN_BYTES = 32;
  private static final int MOST_AT_ONCE = 4;
  private static final Duration BUSY = Duration.ofSeconds(1);

  /** What an unknown name is checked against, so that it takes as long as a known one. */
  private static final String NOBODYS = Passwords.hash("nobody has this one".toCharArray());

  private final Store store;
  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();
  private final Attempts attempts;

  /** Passwords that are looked at or wait to be: each takes its turn of some 50 ms. */
  private final Semaphore turnsElsewhere = new Semaphore(MOST_AT_ONCE);

  /** Of their own, so that strangers do not take them all. */
  private final Semaphore turnsAtHome = new Semaphore(MOST_AT_ONCE);

  public SignIn(Store store, InstantSource clock) {
    this.store = store;
    this.clock = clock;
    this.attempts = new Attempts(clock);
  }

  /** A person in a session. */
  public record SessionUser(String name, Role role) {}

  /** What came of it. */
  public sealed interface SignInResult {
    /** In, with a token that only the browser keeps. */
    record In(SessionUser person, String token) implements SignInResult {
      @Override
      public String toString() {
        return "in as " + person.name();
      }
    }

    /** Name and password do not belong together. */
    record Wrong() implements SignInResult {}

    /** Too many tries from there, or for that name: wait. */
    record TooOften(Duration pause) implements SignInResult {}
  }

  /**
   * Tries a name and a password.
   *
   * @param from the address it comes from
   */
  public SignInResult tryIn(String name, char[] password, String from) {
    String place = ClientNetwork.of(from);
    Who who = new Who(name, place, store.users().knows(name, place));
    Optional<Duration> wait = attempts.begin(who);
    if (wait.isPresent()) {
      return new SignInResult.TooOften(wait.get());
    }
    Semaphore turns = who.atHome() ? turnsAtHome : turnsElsewhere;
    if (!turns.tryAcquire()) {
      attempts.takenBack(who);
      return new SignInResult.TooOften(BUSY);
    }
    try {
      return look(who, password);
    } finally {
      turns.release();
    }
  }

  private SignInResult look(Who who, char[] password) {
    Optional<UserRow> user = store.users().find(who.name());
    boolean right = Passwords.matches(password, user.map(UserRow::hash).orElse(NOBODYS));
    if (!right || user.isEmpty()) {
      return new SignInResult.Wrong();
    }
    attempts.succeeded(who);
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    Instant now = clock.instant();
    store.users().open(digest(token), who.name(), now, now.plus(SESSION));
    store.users().know(who.name(), who.place(), now);
    return new SignInResult.In(person(user.get()), token);
  }

  public Optional<SessionUser> whose(String token) {
    return store.users().inSession(digest(token), clock.instant()).map(SignIn::person);
  }

  public void end(String token) {
    store.users().end(digest(token));
  }

  private static SessionUser person(UserRow row) {
    return new SessionUser(row.name(), Role.of(row.role()).orElse(Role.LOOK));
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

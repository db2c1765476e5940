package dev.cupwarden.host.users;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.SignIn.SignInResult;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntFunction;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A hundred and fifty guesses at once, and the one whose name they are at. */
class ManyGuessesTest {
  private static final int GUESSES = 150;
  private static final int FREE = 5;
  private static final String WORD = "a long enough password";
  private static final String HOME = "192.0.2.7";
  @TempDir Path folder;
  private Store store;

  @BeforeEach
  void open() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
  }

  @AfterEach
  void close() {
    store.close();
  }

  private static SignIn signInTo(Store store) {
    store.users().put(new UserRow("owner", "act", Passwords.hash(WORD.toCharArray())));
    return new SignIn(store, InstantSource.fixed(Instant.now()));
  }

  private static SignInResult tryIn(SignIn signIn, String password, String from) {
    return signIn.tryIn("owner", password.toCharArray(), from);
  }

  /** How many of them were looked at. */
  private static long guess(SignIn signIn, IntFunction<String> from) throws Exception {
    ExecutorService many = Executors.newFixedThreadPool(GUESSES);
    try {
      List<Future<SignInResult>> tries = new ArrayList<>();
      for (int each = 0; each < GUESSES; each++) {
        String place = from.apply(each);
        String password = "not this one either " + each;
        tries.add(many.submit(() -> tryIn(signIn, password, place)));
      }
      long looked = 0;
      for (Future<SignInResult> each : tries) {
        looked += each.get() instanceof SignInResult.Wrong ? 1 : 0;
      }
      return looked;
    } finally {
      many.shutdownNow();
    }
  }

  private static void storyOf(Store store) throws Exception {
    SignIn signIn = signInTo(store);
    assertInstanceOf(SignInResult.In.class, tryIn(signIn, WORD, HOME));
    long fromOne = guess(signIn, each -> "198.51.100.1");
    assertTrue(fromOne <= FREE, fromOne + " guesses were looked at; it had been 78");
    long fromMany = guess(signIn, each -> "203.0.113." + each);
    // A try that found no turn on a busy machine was not looked at, and does not count.
    assertTrue(fromOne + fromMany <= FREE, fromMany + " more from elsewhere were looked at");
    for (long left = fromOne + fromMany; left < FREE; left++) {
      assertInstanceOf(SignInResult.Wrong.class, tryIn(signIn, "nor this", "198.51.100.2"));
    }
    assertInstanceOf(SignInResult.TooOften.class, tryIn(signIn, WORD, "198.51.100.3"));
    assertInstanceOf(SignInResult.In.class, tryIn(signIn, WORD, HOME), "the owner is at home");
  }

  @Test
  void fewAreLookedAtAndTheOwnerComesIn() throws Exception {
    storyOf(store);
  }

  @Test
  void likewiseOnPostgresql() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start();
        Store other = Store.open(server.database())) {
      storyOf(other);
    }
  }

  @Test
  void aNewPasswordForgetsThePlaces() {
    SignIn signIn = signInTo(store);
    assertInstanceOf(SignInResult.In.class, tryIn(signIn, WORD, HOME));
    assertTrue(store.users().knows("owner", HOME));
    signInTo(store);
    assertFalse(store.users().knows("owner", HOME));
  }

  @Test
  void onlyTheNewestPlacesAreKnown() {
    SignIn signIn = signInTo(store);
    assertInstanceOf(SignInResult.In.class, tryIn(signIn, WORD, HOME));
    for (int each = 0; each < 60; each++) {
      store.users().know("owner", "place " + each, java.time.Instant.now().plusSeconds(each));
    }
    assertFalse(store.users().knows("owner", HOME));
    assertTrue(
        store.users().knows("owner", "place 10") && store.users().knows("owner", "place 59"));
  }

  /** A key that an older host hashed by Argon2id is known, and costs no time from then on. */
  @Test
  void aBenchsKeyIsADigestAndAnOlderOneBecomesOne() {
    BenchKeys keys = new BenchKeys(store);
    String key = keys.make("sill");
    String stored = store.users().key("sill").orElseThrow();
    assertTrue(stored.startsWith("sha256$") && !stored.contains(key), stored);
    assertTrue(keys.matches("sill", key.toCharArray()));
    store.users().putKey("sill", Passwords.hash(key.toCharArray()));
    assertFalse(keys.matches("sill", "wrong".toCharArray()));
    assertFalse(keys.matches("sill", keys.make("attic").toCharArray()));
    assertTrue(store.users().key("sill").orElseThrow().startsWith("$argon2id$"));
    assertTrue(keys.matches("sill", key.toCharArray()));
    assertEquals(stored, store.users().key("sill").orElseThrow());
    assertFalse(keys.matches("nobody's", key.toCharArray()));
    assertFalse(keys.matches("sill", "sha256$".toCharArray()));
  }
}

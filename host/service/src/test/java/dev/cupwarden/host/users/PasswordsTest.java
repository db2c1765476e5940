package dev.cupwarden.host.users;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import java.util.Arrays;
import java.util.HexFormat;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;
import org.junit.jupiter.api.Test;

class PasswordsTest {
  @Test
  void aHashIsArgon2idWithASaltOfItsOwnAndKnowsItsWord() {
    char[] password = "twelve or more".toCharArray();
    String hash = Passwords.hash(password);
    assertTrue(hash.startsWith("$argon2id$v=19$m=19456,t=2,p=1$"), hash);
    assertNotEquals(hash, Passwords.hash(password));
    assertTrue(Passwords.matches(password, hash));
    assertFalse(Passwords.matches("twelve or less".toCharArray(), hash));
  }

  /** The function itself, with a secret and associated data: RFC 9106, section 5.3. */
  @Test
  void theFunctionIsThatOfTheStandard() {
    Argon2BytesGenerator generator = new Argon2BytesGenerator();
    generator.init(
        new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
            .withVersion(Argon2Parameters.ARGON2_VERSION_13)
            .withMemoryAsKB(32)
            .withIterations(3)
            .withParallelism(4)
            .withSalt(filled(16, 2))
            .withSecret(filled(8, 3))
            .withAdditional(filled(12, 4))
            .build());
    byte[] tag = new byte[32];
    generator.generateBytes(filled(32, 1), tag);
    assertEquals(
        "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659",
        HexFormat.of().formatHex(tag));
  }

  private static byte[] filled(int bytes, int value) {
    byte[] all = new byte[bytes];
    Arrays.fill(all, (byte) value);
    return all;
  }

  /**
   * Made once by Argon2's reference implementation as Debian 12 packages it (argon2 0~20171227):
   * {@code printf %s WORD | argon2 SALT -id -v 13 -k 19456 -t 2 -p 1 -l 32 -e}, and with other
   * parameters.
   */
  @Test
  void hashesOfTheReferenceImplementationAreKnown() {
    String withOurs =
        "$argon2id$v=19$m=19456,t=2,p=1$c2l4dGVlbiBieXRlcyBpdA"
            + "$GOVHrfKxs0QvyWG8Hlcpf5Zdyq7dlGY9qbKcdC6qQns";
    assertTrue(Passwords.matches("twelve or more".toCharArray(), withOurs));
    assertFalse(Passwords.matches("twelve or mora".toCharArray(), withOurs));
    String withOthers =
        "$argon2id$v=19$m=4096,t=3,p=2$c2FsdHNhbHQ$G11bDZc2rTNJBZZrnH/eWEQjduWWEd/j";
    assertTrue(Passwords.matches("зелень и вода ü".toCharArray(), withOthers));
    assertFalse(Passwords.matches("зелень и вода u".toCharArray(), withOthers));
  }

  /** Made once by password4j 1.8.4, which the host used before, with its longer salt. */
  @Test
  void hashesThatOlderHostsStoredAreKnown() {
    String hash =
        "$argon2id$v=19$m=19456,t=2,p=1$YhNdpctS/qduwhuTh2ic+x1wt5ELSTcwvSXWc3X0gog0BOFkQ+aUM7zB66"
            + "SK5D7/QT3cgR/Aj8aFOG10c8HFuw$05E9nmpf6s2GxxFHdun0ZzD51Ynf6LT5J3uqB2XvP/U";
    assertTrue(Passwords.matches("zwölf oder mehr".toCharArray(), hash));
    assertFalse(Passwords.matches("zwolf oder mehr".toCharArray(), hash));
  }

  @Test
  void whatIsNoHashOrWouldExhaustTheHostMatchesNothing() {
    char[] password = "twelve or more".toCharArray();
    String hash = Passwords.hash(password);
    for (String other :
        new String[] {
          "",
          "$argon2id$",
          hash.replace("argon2id", "argon2i"),
          hash.replace("m=19456", "m=999999999"),
          hash.replace("m=19456", "m=0"),
          hash.replace("t=2", "t=9999"),
          hash.replace("t=2", "t=0"),
          hash.replace("p=1", "p=0"),
          hash.substring(0, hash.length() - 2), // 41 characters of Base64: the last is no byte.
          hash + "=",
          hash + "$"
        }) {
      assertFalse(Passwords.matches(password, other), other);
    }
  }

  @Test
  void aShortPasswordIsRefused() {
    assertThrows(HostException.class, () -> Passwords.hash("short".toCharArray()));
    assertThrows(HostException.class, () -> Passwords.hash(new char[300]));
  }
}

package dev.cupwarden.host.notify;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.Base64;
import java.util.Map;
import java.util.TreeMap;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Signs a POST by HMAC-SHA256 over method, address, digest of the body (RFC 9530) and idempotency
 * key, as RFC 9421 (HTTP Message Signatures, section 3.3.3) says.
 */
final class HttpSignature {
  private static final String MAC = "HmacSHA256";
  private static final String COVERED =
      "(\"@method\" \"@target-uri\" \"content-digest\" \"idempotency-key\")";

  private final byte[] secret;

  HttpSignature(String secret) {
    this.secret = secret.getBytes(StandardCharsets.UTF_8);
  }

  HttpSignature(byte[] secret) {
    this.secret = secret.clone();
  }

  Map<String, String> headers(URI target, String idempotencyKey, byte[] body, Instant created) {
    String digest = "sha-256=:" + base64(sha256(body)) + ":";
    String parameters =
        COVERED
            + ";created="
            + created.getEpochSecond()
            + ";keyid=\"cupwarden\";alg=\"hmac-sha256\"";
    String base =
        String.join(
            "\n",
            "\"@method\": POST",
            "\"@target-uri\": " + target,
            "\"content-digest\": " + digest,
            "\"idempotency-key\": " + idempotencyKey,
            "\"@signature-params\": " + parameters);
    Map<String, String> headers = new TreeMap<>();
    headers.put("Content-Digest", digest);
    headers.put("Signature-Input", "cupwarden=" + parameters);
    headers.put("Signature", "cupwarden=:" + signed(base) + ":");
    return headers;
  }

  /** The signature of a signature base, in base64. */
  String signed(String base) {
    try {
      Mac mac = Mac.getInstance(MAC);
      mac.init(new SecretKeySpec(secret, MAC));
      return base64(mac.doFinal(base.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException impossible) {
      throw new IllegalStateException("every Java has " + MAC, impossible);
    }
  }

  private static byte[] sha256(byte[] body) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(body);
    } catch (GeneralSecurityException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  private static String base64(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }
}

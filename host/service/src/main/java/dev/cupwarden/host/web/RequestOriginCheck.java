package dev.cupwarden.host.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.net.URI;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Who may ask: programs and pages of this machine. A browser here may show a page of any site; that
 * page must neither read (its name made to point at 127.0.0.1: told by the Host header) nor act
 * (told by Origin, and by a content type that no plain form can send).
 */
final class RequestOriginCheck {
  private static final Set<String> OURSELVES = Set.of("127.0.0.1", "localhost", "[::1]");
  private static final Set<String> HARMLESS = Set.of("GET", "HEAD");

  /** Nothing from elsewhere, nothing inline, no frame around it. */
  private static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
          "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
              + " connect-src 'self'; font-src 'self'; manifest-src 'self'; base-uri 'none';"
              + " form-action 'none'; frame-ancestors 'none'",
          "X-Content-Type-Options",
          "nosniff",
          "X-Frame-Options",
          "DENY",
          "Referrer-Policy",
          "no-referrer",
          "Cross-Origin-Opener-Policy",
          "same-origin",
          "Cross-Origin-Resource-Policy",
          "same-origin",
          "Cache-Control",
          "no-cache");

  private RequestOriginCheck() {}

  /**
   * @param exposed whether other machines may ask too, each by whatever name it has for this one
   */
  static void check(Context context, boolean exposed) {
    HEADERS.forEach(context::header);
    String host = context.header("Host");
    if (host == null || (!exposed && !OURSELVES.contains(nameOf(host)))) {
      throw new ApiException(
          HttpStatus.FORBIDDEN, "This page answers to 127.0.0.1 and localhost only.");
    }
    if (HARMLESS.contains(context.method().name())) {
      return;
    }
    String origin = context.header("Origin");
    if (origin != null && !isSame(origin, host)) {
      throw new ApiException(
          HttpStatus.FORBIDDEN, "Orders are taken from this host's own page only.");
    }
    String type = context.contentType();
    if (context.method().name().equals("DELETE")) {
      return;
    }
    if (type == null || !type.toLowerCase(Locale.ROOT).startsWith("application/json")) {
      throw new ApiException(
          HttpStatus.UNSUPPORTED_MEDIA_TYPE, "Content-Type: expected application/json.");
    }
  }

  private static String nameOf(String host) {
    int colon = host.lastIndexOf(':');
    boolean port = colon > host.lastIndexOf(']');
    return (port ? host.substring(0, colon) : host).toLowerCase(Locale.ROOT);
  }

  private static boolean isSame(String origin, String host) {
    try {
      return host.equalsIgnoreCase(URI.create(origin).getAuthority());
    } catch (IllegalArgumentException opaque) {
      return false;
    }
  }
}

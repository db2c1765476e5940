package dev.cupwarden.host.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.users.Role;
import dev.cupwarden.host.users.SignIn;
import dev.cupwarden.host.users.SignIn.SessionUser;
import dev.cupwarden.host.users.SignIn.SignInResult;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.util.Optional;
import java.util.Set;

/**
 * Asks everybody who they are, where the page is open to other machines; lets those who may only
 * look not act. On loopback alone nobody is asked.
 *
 * <p>Against forged requests: the cookie goes with no request of another site (SameSite), and what
 * changes something must name this page as its origin.
 */
final class SessionAuth {
  private static final String COOKIE = "cupwarden-session";
  private static final int LONGEST = 256;
  private static final Set<String> HARMLESS = Set.of("GET", "HEAD");
  private static final Set<String> OPEN =
      Set.of(
          "/api/session",
          "/sign-in/",
          "/sign-in/sign-in.js",
          "/sign-in/sign-in.css",
          "/mark.svg",
          "/health/live");

  private final SignIn signIn;
  private final boolean asks;
  private final boolean encrypted;

  SessionAuth(SignIn signIn, Optional<Exposure> exposure) {
    this.signIn = signIn;
    this.asks = exposure.isPresent();
    this.encrypted = exposure.flatMap(Exposure::tls).isPresent();
  }

  void add(RoutesConfig routes) {
    routes.before(this::check);
    routes.get("/api/session", this::who);
    routes.post("/api/session", this::in);
    routes.delete("/api/session", this::out);
  }

  private void check(Context context) {
    if (!asks) {
      return;
    }
    Optional<SessionUser> person = personOf(context);
    person.ifPresent(known -> Caller.is(context, known.name()));
    boolean acts = !HARMLESS.contains(context.method().name());
    if (acts && context.header("Origin") == null) {
      throw new ApiException(HttpStatus.FORBIDDEN, "Origin: expected this page's own address.");
    }
    if (OPEN.contains(context.path())) {
      return;
    }
    if (person.isEmpty()) {
      turnAway(context);
    } else if (acts && person.get().role() != Role.ACT) {
      throw new ApiException(HttpStatus.FORBIDDEN, person.get().name() + " may look, not act.");
    }
  }

  private static void turnAway(Context context) {
    if (context.path().equals("/")) {
      context.redirect("/sign-in/", HttpStatus.SEE_OTHER);
      context.skipRemainingHandlers();
      return;
    }
    throw new ApiException(HttpStatus.UNAUTHORIZED, "Sign in first, at /sign-in/.");
  }

  private Optional<SessionUser> personOf(Context context) {
    return Optional.ofNullable(context.cookie(COOKIE))
        .filter(token -> token.length() <= LONGEST)
        .flatMap(signIn::whose);
  }

  private void who(Context context) {
    ObjectNode answer = Json.MAPPER.createObjectNode().put("asks", asks);
    Optional<SessionUser> person = asks ? personOf(context) : Optional.empty();
    answer.put("name", person.map(SessionUser::name).orElse(null));
    answer.put(
        "role", asks ? person.map(known -> known.role().word()).orElse(null) : Role.ACT.word());
    JsonResponse.json(context, answer);
  }

  private void in(Context context) {
    JsonNode asked = bodyOf(context);
    String name = text(asked, "name");
    SignInResult outcome = signIn.tryIn(name, text(asked, "password").toCharArray(), context.ip());
    if (outcome instanceof SignInResult.In in) {
      context.cookie(cookie(in.token(), (int) SignIn.SESSION.toSeconds()));
      JsonResponse.json(
          context,
          Json.MAPPER
              .createObjectNode()
              .put("name", in.person().name())
              .put("role", in.person().role().word()));
    } else if (outcome instanceof SignInResult.TooOften often) {
      long waitS = Math.max(1, often.pause().toSeconds());
      context.header("Retry-After", String.valueOf(waitS));
      throw new ApiException(HttpStatus.TOO_MANY_REQUESTS, "Too many tries: wait " + waitS + " s.");
    } else {
      throw new ApiException(HttpStatus.UNAUTHORIZED, "Name and password do not belong together.");
    }
  }

  private void out(Context context) {
    Optional.ofNullable(context.cookie(COOKIE)).ifPresent(signIn::end);
    context.cookie(cookie("", 0));
    JsonResponse.json(context, Json.MAPPER.createObjectNode());
  }

  private Cookie cookie(String value, int ageS) {
    Cookie cookie = new Cookie(COOKIE, value, "/", ageS);
    cookie.setHttpOnly(true);
    cookie.setSecure(encrypted);
    cookie.setSameSite(SameSite.STRICT);
    return cookie;
  }

  private static JsonNode bodyOf(Context context) {
    try {
      return Json.MAPPER.readTree(context.body());
    } catch (JsonProcessingException broken) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST, "Expected a JSON object with name and password.");
    }
  }

  private static String text(JsonNode asked, String field) {
    JsonNode value = asked.path(field);
    if (!value.isTextual() || value.asText().isEmpty() || value.asText().length() > LONGEST) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST, field + ": expected a text of 1 to " + LONGEST + " characters.");
    }
    return value.asText();
  }
}

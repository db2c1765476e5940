package dev.cupwarden.host.web;

import io.javalin.http.Context;

/** Who asks, as it is written into orders and acknowledgements. */
final class Caller {
  private static final String ATTRIBUTE = "cupwarden-caller";
  private static final String FROM_THE_PAGE = "page";

  private Caller() {}

  /** The person who is signed in; without users, whoever sits at the page of this machine. */
  static String nameOf(Context context) {
    String name = context.attribute(ATTRIBUTE);
    return name == null ? FROM_THE_PAGE : name;
  }

  static void is(Context context, String name) {
    context.attribute(ATTRIBUTE, name);
  }
}

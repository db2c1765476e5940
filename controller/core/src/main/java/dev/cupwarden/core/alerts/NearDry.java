package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.Catalogue;
import java.time.Duration;

/**
 * What is said of a cup near its dry line or past it. It grows worse once it is past, after six
 * hours, after a day, and with each further day: our choice of steps, at each of which it is told
 * anew.
 */
public final class NearDry {
  /** Of a normal law: one in twenty lies above the mean and so many standard deviations. */
  public static final double ONE_IN_TWENTY_SD = 1.645;

  private static final Duration LONG = Duration.ofHours(6);
  private static final int PAST = 1;
  private static final int PAST_LONG = 2;
  private static final int PAST_A_DAY = 3;

  private NearDry() {}

  /**
   * How bad it is.
   *
   * @param past how long it has been past its dry line; null while it is not
   */
  public static int severity(Duration past) {
    if (past == null) {
      return 0;
    }
    if (past.toDays() > 0) {
      return PAST_A_DAY - 1 + (int) Math.min(past.toDays(), 365);
    }
    return past.compareTo(LONG) < 0 ? PAST : PAST_LONG;
  }

  /**
   * What to do about one cup.
   *
   * @param severity as {@link #severity} says
   * @param weighed whether that is what its scale shows
   * @param watered whether it is getting water now
   */
  public static String whatToDo(int severity, boolean weighed, boolean watered) {
    String state = state(severity, weighed) + " ";
    if (watered) {
      return state + say("do.watered");
    }
    return state + (weighed ? AlertCode.NEAR_DRY.whatToDo() : say("do.unweighed"));
  }

  /**
   * What to do about one that stands in another's place; what it holds itself is reckoned.
   *
   * @param severity as {@link #severity} says
   * @param partner whose place
   */
  public static String inAnothersPlace(int severity, String partner) {
    return say(severity == 0 ? "misplaced" : "misplaced-past", partner, lasting(severity));
  }

  private static String state(int severity, boolean weighed) {
    String state = severity == 0 ? "state.near" : "state.past";
    return say(weighed ? state : state + "-unweighed", lasting(severity));
  }

  /** Empty where it is none. */
  static String worst(int severity) {
    return severity == 0 ? "" : say("worst", lasting(severity)) + " ";
  }

  private static String lasting(int severity) {
    if (severity <= PAST) {
      return "";
    }
    int days = severity - PAST_A_DAY + 1;
    return severity == PAST_LONG
        ? say("lasting.hours")
        : days == 1 ? say("lasting.day") : say("lasting.days", days);
  }

  private static String say(String key, Object... values) {
    return Catalogue.say("alert.near-dry." + key, values);
  }
}

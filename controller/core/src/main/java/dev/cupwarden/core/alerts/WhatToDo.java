package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.Catalogue;
import java.util.List;

/** The sentence that an alert tells a person: its own, its code's, or that of many cups. */
final class WhatToDo {
  private WhatToDo() {}

  /** What to do about that condition. */
  static String about(Condition condition) {
    return condition.whatToDo() == null ? condition.code().whatToDo() : condition.whatToDo();
  }

  /**
   * What to do about that alert of several cups.
   *
   * @param cups in order of name; none once it has ended
   */
  static String together(Condition condition, List<String> cups) {
    String sentence = condition.code().whatToDoTogether();
    if (cups.isEmpty()) {
      return sentence;
    }
    String worst =
        condition.code() == AlertCode.NEAR_DRY ? NearDry.worst(condition.severity()) : "";
    String whatToDo = condition.bound() ? Catalogue.say("alert.near-dry.do.weigh-them") : sentence;
    return String.join(", ", cups) + ": " + worst + whatToDo;
  }
}

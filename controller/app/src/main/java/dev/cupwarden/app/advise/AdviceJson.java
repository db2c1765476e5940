package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import java.util.List;
import java.util.Map;

/** For programs: a JSON object a line. */
final class AdviceJson implements AdviceWriter {
  @Override
  public String answer(Advice advice, List<String> notes) {
    return Json.written(advice) + "\n";
  }

  @Override
  public String error(long line, String sentence) {
    return Json.written(Map.of("error", "line " + line + ": " + sentence)) + "\n";
  }
}

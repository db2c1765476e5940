package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Receipt;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Files beside a journal with orders that the program could not live with, one order a line. They
 * stay until a person has looked at them and deleted them.
 */
public final class SetAside {
  private static final String MIDDLE = ".set-aside-";

  private SetAside() {}

  static Path write(Path journal, Instant now, List<JsonNode> orders) throws JournalException {
    String when = now.truncatedTo(ChronoUnit.SECONDS).toString().replace(":", "");
    Path to = journal.resolveSibling(journal.getFileName() + MIDDLE + when + ".jsonl");
    String lines = orders.stream().map(order -> order + "\n").collect(Collectors.joining());
    try {
      PrivateFile.make(to);
      Files.writeString(
          to,
          lines,
          StandardCharsets.UTF_8,
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND,
          StandardOpenOption.SYNC);
      return to;
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE,
          "journal: %s cannot be written: %s".formatted(to, e.getMessage()),
          e);
    }
  }

  static Receipt receipt(String id, Path to) {
    return Receipt.refused(
        id, "set aside: the controller failed three times with it in hand; it is in " + to);
  }

  /** Those beside a journal; none also where the folder cannot be looked into. */
  public static List<Path> beside(Path journal) {
    Path folder = journal.toAbsolutePath().getParent();
    String glob = journal.getFileName() + MIDDLE + "*";
    try (DirectoryStream<Path> all = Files.newDirectoryStream(folder, glob)) {
      List<Path> found = new java.util.ArrayList<>();
      all.forEach(found::add);
      return List.copyOf(found);
    } catch (IOException e) {
      return List.of();
    }
  }
}

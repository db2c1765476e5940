package dev.cupwarden.host.review;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Notes.NoteRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Optional;

/** Notes, one a line, each with its photo as a JPEG in base64; one photo at a time is in memory. */
final class NoteLines {
  private NoteLines() {}

  static void write(Store store, Export.Asked asked, Writer out) throws IOException {
    for (NoteRow note : store.notes().find(asked.bench(), Optional.empty())) {
      if (!within(asked, note.at())) {
        continue;
      }
      ObjectNode line =
          Json.MAPPER
              .createObjectNode()
              .put("cup", note.cup())
              .put("at", note.at().toString())
              .put("day", note.day())
              .put("stage", note.stage())
              .put("by", note.by())
              .put("words", note.words());
      store
          .notes()
          .photo(note.bench(), note.cup(), note.id())
          .ifPresent(photo -> line.put("photo_jpeg_base64", photo));
      out.write(line.toString());
      out.write('\n');
    }
  }

  private static boolean within(Export.Asked asked, Instant at) {
    return !at.isBefore(asked.from()) && at.isBefore(asked.to());
  }
}

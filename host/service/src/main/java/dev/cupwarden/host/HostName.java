package dev.cupwarden.host;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import java.util.regex.Pattern;

/** The name by which a broker knows this host again, made once and kept in its data folder. */
final class HostName {
  private static final Pattern FORM = Pattern.compile("cupwarden-host-[0-9a-f-]{36}");

  private HostName() {}

  static String of(Path data) {
    Path file = data.resolve("host-name");
    try {
      PrivateFiles.folder(data, file.getFileName().toString());
      // Empty: the host was killed, or the power went, as it was made.
      if (!Files.exists(file) || Files.size(file) == 0) {
        PrivateFiles.file(file);
        Files.writeString(file, "cupwarden-host-" + UUID.randomUUID() + "\n");
      }
      PrivateFiles.fileIfThere(file);
      String name = Files.readString(file).strip();
      if (!FORM.matcher(name).matches()) {
        throw new HostException(
            file + " does not hold a host's name; remove it and a new one is made.");
      }
      return name;
    } catch (IOException failed) {
      throw new HostException("The folder " + data + " cannot be read or written.", failed);
    }
  }
}

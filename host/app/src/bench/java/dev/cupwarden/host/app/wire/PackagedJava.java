package dev.cupwarden.host.app.wire;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The options of Java with which the package runs a host: read from its very files. */
enum PackagedJava {
  OWN_BROKER("java-own-broker"),
  BROKER_BESIDE("java-broker-beside");

  private final String file;

  PackagedJava(String file) {
    this.file = file;
  }

  /** For a command line; Java reads the file itself. */
  List<String> options() {
    Path path = Path.of("src", "deb", file).toAbsolutePath();
    if (!Files.exists(path)) {
      throw new IllegalStateException(path + " is not there: run it in the folder host/app");
    }
    return List.of("@" + path);
  }
}

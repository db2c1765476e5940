package dev.cupwarden.host.app;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.BenchKeys;
import dev.cupwarden.host.users.Passwords;
import dev.cupwarden.host.users.Role;
import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code user}: who may see the page and act, and which benches come with a key. */
@Command(
    name = "user",
    description = "Manages who may sign in: people to the page, benches to the broker.",
    mixinStandardHelpOptions = true)
final class UserCommand {
  private static final String NAME = "[A-Za-z0-9._@-]{1,64}";

  @Spec private CommandSpec spec;

  @Command(
      name = "add",
      description = {
        "Adds a person, or gives one a new role and password, which ends that person's sessions."
            + " The password is asked for, or read from standard input."
      })
  int add(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep,
      @Option(
              names = "--role",
              paramLabel = "ROLE",
              defaultValue = "look",
              description = "look, or act (default: ${DEFAULT-VALUE}).")
          String role,
      @Parameters(paramLabel = "NAME") String name) {
    Role known =
        Role.of(role)
            .orElseThrow(() -> usage("--role: expected look or act, not \"" + role + "\"."));
    if (!name.matches(NAME)) {
      throw usage("NAME: expected 1 to 64 letters, digits, dots, dashes, underscores or @.");
    }
    char[] password = password();
    try (Store store = Store.open(keep.database(data))) {
      store.users().put(new UserRow(name, known.word(), Passwords.hash(password)));
    } finally {
      Arrays.fill(password, '\0');
    }
    return told(name + " may " + known.word() + ".");
  }

  @Command(name = "remove", description = "Removes a person and ends that person's sessions.")
  int remove(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep,
      @Parameters(paramLabel = "NAME") String name) {
    try (Store store = Store.open(keep.database(data))) {
      if (!store.users().remove(name)) {
        throw new HostException("There is no user " + name + ".");
      }
    }
    return told(name + " is removed.");
  }

  @Command(name = "list", description = "Lists people with their roles, and benches with a key.")
  int list(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep) {
    try (Store store = Store.open(keep.database(data))) {
      store.users().all().forEach(user -> told(user.name() + " " + user.role()));
      store.users().benchesWithKey().forEach(bench -> told("bench " + bench));
    }
    return 0;
  }

  @Command(
      name = "bench",
      description = {
        "Makes a new key for a bench and shows it once: the controller comes to the broker inside"
            + " the host with the bench's name and this key. From then on nobody comes without one."
      })
  int bench(
      @Option(names = "--data", required = true, paramLabel = "DIR") Path data,
      @Mixin StoreOptions keep,
      @Option(names = "--remove", description = "Removes the bench's key instead.") boolean remove,
      @Parameters(paramLabel = "BENCH") String bench) {
    try (Store store = Store.open(keep.database(data))) {
      if (!remove) {
        return told(new BenchKeys(store).make(bench));
      }
      if (!store.users().removeKey(bench)) {
        throw new HostException("Bench " + bench + " has no key.");
      }
      return told("Bench " + bench + " has no key any more.");
    }
  }

  private char[] password() {
    Console console = System.console();
    if (console != null) {
      return console.readPassword("Password: ");
    }
    try {
      String line =
          new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)).readLine();
      if (line == null) {
        throw new HostException("No password came on standard input.");
      }
      return line.toCharArray();
    } catch (IOException failed) {
      throw new HostException("The password could not be read.", failed);
    }
  }

  private ParameterException usage(String sentence) {
    return new ParameterException(spec.commandLine(), sentence);
  }

  private int told(String line) {
    PrintWriter out = spec.commandLine().getOut();
    out.println(line);
    out.flush();
    return 0;
  }
}

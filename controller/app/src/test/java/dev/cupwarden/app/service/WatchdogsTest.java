package dev.cupwarden.app.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The watchdogs over a real datagram socket, in virtual time. */
class WatchdogsTest {
  /** The other end of the socket, as a service manager has it. */
  private interface Libc extends Library {
    int socket(int domain, int type, int protocol) throws LastErrorException;

    int bind(int fd, byte[] address, int length) throws LastErrorException;

    long recv(int fd, byte[] data, long length, int flags) throws LastErrorException;

    int close(int fd);
  }

  private static final int MSG_DONTWAIT = 0x40;

  private final Libc libc = Native.load("c", Libc.class);
  private final VirtualTime world = new VirtualTime(Instant.parse("2027-01-10T06:00:00Z"));
  private final AcceleratedTime time = new AcceleratedTime(world, AcceleratedTime.UNBOUNDED);
  private final LifeSigns signs = new LifeSigns(Duration.ofMinutes(5), Duration.ZERO, 0);
  @TempDir Path folder;
  private int manager;

  @BeforeEach
  void listen() {
    byte[] path = folder.resolve("notify").toString().getBytes(StandardCharsets.UTF_8);
    byte[] address =
        ByteBuffer.allocate(3 + path.length)
            .order(ByteOrder.nativeOrder())
            .putShort((short) 1)
            .put(path)
            .array();
    manager = libc.socket(1, 2, 0);
    libc.bind(manager, address, address.length);
  }

  @AfterEach
  void close() {
    libc.close(manager);
  }

  private List<String> heard() {
    List<String> all = new ArrayList<>();
    byte[] data = new byte[256];
    while (true) {
      try {
        int length = (int) libc.recv(manager, data, data.length, MSG_DONTWAIT);
        all.add(new String(data, 0, length, StandardCharsets.UTF_8));
      } catch (LastErrorException nothingMore) {
        return all;
      }
    }
  }

  private Watchdogs watchdogs(Optional<HardwareWatchdog> hardware) {
    return new Watchdogs(
        signs, time, NotifySocket.of(folder.resolve("notify").toString()), hardware);
  }

  @Test
  void aLoopThatTicksFeedsAndOneThatHangsStarves() throws Exception {
    Path device = Files.createFile(folder.resolve("watchdog"));
    Watchdogs watchdogs = watchdogs(Optional.of(HardwareWatchdog.open(device)));
    assertEquals(List.of("READY=1\nSTATUS=Running"), heard());
    assertEquals(12, feedsWithin(Duration.ofSeconds(60)));
    assertEquals(12, Files.size(device));
    signs.moved(world.nanos());
    assertEquals(4, feedsWithin(Duration.ofSeconds(20)));
    world.advanceBy(Duration.ofSeconds(5));
    assertEquals(List.of("STATUS=The loop hangs"), heard());
    assertEquals(0, feedsWithin(Duration.ofMinutes(10)));
    watchdogs.close();
    assertEquals(List.of("STOPPING=1"), heard());
    assertTrue(Files.readString(device).endsWith("V"), "the end was meant");
  }

  /** A socket holds but a few datagrams that nobody has read. */
  private long feedsWithin(Duration span) {
    long feeds = 0;
    for (long s = 0; s < span.toSeconds(); s += 5) {
      world.advanceBy(Duration.ofSeconds(5));
      feeds += heard().stream().filter("WATCHDOG=1"::equals).count();
    }
    return feeds;
  }

  @Test
  void aManagerThatDoesNotReadHoldsNothingUp() throws Exception {
    try (Watchdogs watchdogs = watchdogs(Optional.empty())) {
      world.advanceBy(Duration.ofMinutes(10));
      assertTrue(heard().size() > 1);
    }
  }

  @Test
  void withoutAManagerNothingIsSaid() {
    assertTrue(NotifySocket.of(null).isEmpty());
    assertTrue(NotifySocket.of("").isEmpty());
    assertTrue(NotifySocket.of("/" + "a".repeat(108)).isEmpty());
    assertFalse(NotifySocket.of(folder.resolve("nobody").toString()).orElseThrow().send("READY=1"));
  }
}

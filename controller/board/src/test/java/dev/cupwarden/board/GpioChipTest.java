package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Lines by the kernel's character device, against a kernel that is told by bytes. */
class GpioChipTest {
  private final ConstructedGpioKernel kernel = new ConstructedGpioKernel();
  @TempDir private Path root;

  @BeforeEach
  void makeFolders() throws IOException {
    Files.createDirectories(root.resolve("dev"));
    Files.createDirectories(root.resolve("proc/device-tree"));
  }

  private void chip(String name, String label, int lines) throws IOException {
    Files.createFile(root.resolve("dev/" + name));
    kernel.with(name, label, lines);
  }

  private void model(String words) throws IOException {
    Files.writeString(root.resolve("proc/device-tree/model"), words + "\0");
  }

  private GpioChip open(String named) throws BoardException {
    return new GpioChips(kernel, root).open(Optional.ofNullable(named));
  }

  private String refused(String named) {
    String sentence = assertThrows(BoardException.class, () -> open(named)).getMessage();
    assertEquals(0, kernel.stillOpen(), "what is looked at is closed again");
    return sentence;
  }

  private static Context context(GpioChip chip) {
    return BoardContext.with(new GpioChipOutputs(chip), new GpioChipInputs(chip));
  }

  /** Every byte that is not zero, by its place: struct gpio_v2_line_request, little-endian. */
  @Test
  void aRequestIsLaidOutAsInTheKernelsHeader() throws Exception {
    chip("gpiochip0", "pinctrl-bcm2711", 58);
    open(null).output(17, "pump", true);
    Map<Integer, Integer> set = new TreeMap<>();
    for (int i = 0; i < kernel.lastRequest.length; i++) {
      if (kernel.lastRequest[i] != 0) {
        set.put(i, (int) kernel.lastRequest[i]);
      }
    }
    assertEquals(
        new TreeMap<>(
            Map.of(
                0, 17, 256, (int) 'p', 257, (int) 'u', 258, (int) 'm', 259, (int) 'p', 288, 8, 296,
                1, 320, 2, 328, 1, 336, 1)),
        without(set, 560));
    assertEquals(1, set.get(560), "one line");
  }

  private static Map<Integer, Integer> without(Map<Integer, Integer> all, int key) {
    Map<Integer, Integer> rest = new TreeMap<>(all);
    rest.remove(key);
    return rest;
  }

  @Test
  void anOutputIsOffFromItsFirstMomentAndOffWhenItIsGivenBack() throws Exception {
    chip("gpiochip0", "pinctrl-rp1", 54);
    kernel.drive(17, true);
    kernel.drive(22, false);
    Context pi4j = context(open(null));
    GpioLine pump = GpioLine.open(pi4j, "the pump", 17, false);
    GpioLine valve = GpioLine.open(pi4j, "the valve v1", 22, true);
    assertFalse(kernel.level(17));
    assertTrue(kernel.level(22), "on when low");
    assertEquals("output 17 low", kernel.asked.get(0), "taken at that level, not set to it later");
    assertTrue(kernel.asked.contains("output 22 high"));
    assertFalse(kernel.asked.contains("set 17 high"));
    pump.on();
    valve.on();
    assertTrue(kernel.level(17));
    assertFalse(kernel.level(22));
    pi4j.shutdown();
    assertFalse(kernel.level(17));
    assertTrue(kernel.level(22));
    int off = kernel.asked.lastIndexOf("set 17 low");
    assertTrue(off >= 0 && off < kernel.asked.indexOf("free 17"), "off before it is given back");
    assertEquals(0, kernel.stillOpen());
  }

  @Test
  void aContactIsPulledUpDebouncedAndAsked() throws Exception {
    chip("gpiochip0", "pinctrl-bcm2835", 54);
    Context pi4j = context(open(null));
    WaterSwitch leak = WaterSwitch.open(pi4j, "the leak sensor", 26);
    assertEquals(List.of("input 26 up 20000 us"), kernel.asked);
    kernel.drive(26, true);
    assertFalse(leak.closed());
    kernel.drive(26, false);
    assertTrue(leak.closed());
    pi4j.shutdown();
    assertEquals(0, kernel.stillOpen());
  }

  @Test
  void aLineThatIsTakenOrNotThereIsTold() throws Exception {
    chip("gpiochip0", "pinctrl-bcm2711", 58);
    Context pi4j = context(open(null));
    new GpioChips(kernel, root).open(Optional.empty()).output(17, "another program", false);
    BoardException busy =
        assertThrows(BoardException.class, () -> GpioLine.open(pi4j, "the pump", 17, false));
    assertTrue(busy.getMessage().contains("Device or resource busy"), busy.getMessage());
    BoardException none =
        assertThrows(BoardException.class, () -> GpioLine.open(pi4j, "the pump", 58, false));
    assertTrue(
        none.getMessage()
            .contains("gpiochip0 (pinctrl-bcm2711) has the lines 0 to 57, and no line 58"),
        none.getMessage());
    pi4j.shutdown();
  }

  @Test
  void theChipOfTheHeaderIsFoundUnderAnyNumber() throws Exception {
    chip("gpiochip0", "107d508500.gpio", 32);
    chip("gpiochip4", "pinctrl-rp1", 54);
    assertEquals("gpiochip4", open(null).name());
    assertEquals(1, kernel.stillOpen(), "the other one is closed");
  }

  @Test
  void onAnyOtherBoardAChipIsNamedByNumberOrLabel() throws Exception {
    model("A board with other lines");
    chip("gpiochip0", "aobus-banks", 11);
    chip("gpiochip1", "periphs-banks", 100);
    assertEquals("gpiochip1", open("periphs-banks").name());
    assertEquals("aobus-banks", open("gpiochip0").label());
    kernel.asked.clear();
    assertEquals(100, open("gpiochip1").lines());
    assertEquals(List.of(), kernel.asked, "no line is touched");
  }

  @Test
  void whatIsNotKnownIsRefusedWithOneSentence() throws Exception {
    model("A board with other lines");
    chip("gpiochip0", "aobus-banks", 11);
    chip("gpiochip1", "periphs-banks", 100);
    assertEquals(
        "The lines of this board (A board with other lines) are not known: it has gpiochip0"
            + " (aobus-banks, 11 lines), gpiochip1 (periphs-banks, 100 lines). Supported without"
            + " more are boards whose 40-pin header hangs on a BCM2835 to BCM2837, BCM2711 or RP1;"
            + " on others name the chip (board.gpio_chip) and its own line numbers.",
        refused(null));
    assertEquals(
        "board.gpio_chip: this board (A board with other lines) has no chip gpiochip7; it has"
            + " gpiochip0 (aobus-banks, 11 lines), gpiochip1 (periphs-banks, 100 lines).",
        refused("gpiochip7"));
    chip("gpiochip2", "periphs-banks", 16);
    assertTrue(refused("periphs-banks").startsWith("board.gpio_chip: 2 chips of this board"));
    kernel.unusable.put("gpiochip0", "[13] Permission denied");
    assertTrue(refused(null).contains("gpiochip0, which cannot be used ([13] Permission denied)"));
  }

  @Test
  void aMachineWithoutLinesIsToldSo() {
    assertTrue(
        refused(null)
            .startsWith(
                "The lines of this machine are not known: it has no GPIO chip (/dev/gpiochip0 and"
                    + " so on)."));
  }

  /** The kernel of this very machine, on a device that has no lines. */
  @Test
  void theCallsReachTheKernel() throws Exception {
    GpioKernel real = GpioKernel.real();
    IOException missing =
        assertThrows(IOException.class, () -> real.open(root.resolve("dev/gpiochip9")));
    assertTrue(missing.getMessage().contains("No such file"), missing.getMessage());
    int fd = real.open(Path.of("/dev/null"));
    IOException noChip =
        assertThrows(
            IOException.class, () -> real.ioctl(fd, 0x8044B401, ByteBuffer.allocateDirect(68)));
    assertTrue(noChip.getMessage().contains("Inappropriate ioctl"), noChip.getMessage());
    real.close(fd);
    assertThrows(IOException.class, () -> real.close(fd), "it is closed");
  }
}

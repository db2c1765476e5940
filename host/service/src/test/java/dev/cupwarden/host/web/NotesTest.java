package dev.cupwarden.host.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.review.Export;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Notes;
import dev.cupwarden.host.store.Store;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Photos lose all but their picture; notes are bounded, exported and backed up with the store. */
class NotesTest {
  private static final Instant AT = Instant.parse("2027-02-14T08:05:00Z");

  private static byte[] picture(String format, int width, int height) throws IOException {
    BufferedImage drawn = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    drawn.setRGB(width / 2, height / 2, 0xFFFFFF);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    assertTrue(ImageIO.write(drawn, format, out));
    return out.toByteArray();
  }

  /** A segment APP1 as cameras write it, right behind the start of the image (Exif 2.32, 4.5.4). */
  private static byte[] withPlace(byte[] jpeg) throws IOException {
    byte[] told = "Exif\0\0MM GPSLatitude 54.9".getBytes(StandardCharsets.US_ASCII);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(jpeg, 0, 2);
    out.write(new byte[] {(byte) 0xFF, (byte) 0xE1, 0, (byte) (told.length + 2)});
    out.write(told);
    out.write(jpeg, 2, jpeg.length - 2);
    return out.toByteArray();
  }

  private static boolean tellsPlace(byte[] file) {
    return new String(file, StandardCharsets.ISO_8859_1).contains("GPSLatitude");
  }

  @Test
  void placeThatACameraWroteIsGoneAndThePictureStays() throws IOException {
    byte[] taken = withPlace(picture("jpeg", 64, 48));
    assertTrue(tellsPlace(taken));
    byte[] kept = PlainPhoto.of(taken);
    assertFalse(tellsPlace(kept));
    BufferedImage seen = ImageIO.read(new ByteArrayInputStream(kept));
    assertEquals(64, seen.getWidth());
    assertEquals(48, seen.getHeight());
  }

  @Test
  void otherPicturesBecomeJpegs() throws IOException {
    byte[] kept = PlainPhoto.of(picture("png", 30, 30));
    assertEquals((byte) 0xFF, kept[0]);
    assertEquals((byte) 0xD8, kept[1]);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "no picture at all", "GIF89a", "\u0089PNG\r\n\u001a\n"})
  void whatIsNoPictureIsRefused(String file) {
    byte[] bytes = file.getBytes(StandardCharsets.ISO_8859_1);
    IOException why = assertThrows(IOException.class, () -> PlainPhoto.of(bytes));
    assertFalse(why.getMessage() == null || why.getMessage().isBlank());
  }

  /** A small file may claim a picture that fills the heap. */
  @Test
  void largePictureIsRefusedBeforeRoomIsMadeForIt() throws IOException {
    byte[] large = picture("png", 2001, 1000);
    assertEquals(
        "photo: at most 2000000 picture elements, not 2001000.",
        assertThrows(IOException.class, () -> PlainPhoto.of(large)).getMessage());
  }

  private static Notes.NoteRow note(String cup, int number, boolean photo) {
    return new Notes.NoteRow(
        "sill", cup, "n-" + number, AT, "2027-02-14", "white", "page", "Tips.", photo);
  }

  @Test
  void aCupHasTwoHundredNotesAndABenchSixHundredPhotos(@TempDir Path folder) throws IOException {
    try (Store store = Store.open(Database.sqlite(folder.resolve("host.db")))) {
      store.write(handle -> store.benches().touch(handle, "sill"));
      Notes notes = store.notes();
      for (int i = 0; i < 600; i++) {
        assertEquals(Optional.empty(), notes.add(note("A" + i / 200, i, true), Optional.of("AA")));
      }
      assertTrue(notes.add(note("A0", 900, false), Optional.empty()).get().contains("200 notes"));
      assertTrue(notes.add(note("B1", 900, true), Optional.of("AA")).get().contains("600 photos"));
      assertEquals(Optional.empty(), notes.add(note("B1", 900, false), Optional.empty()));
      StringWriter out = new StringWriter();
      Export.NOTES.write(store, new Export.Asked("sill", Era.EARLIEST, Era.LATEST), out);
      assertEquals(601, out.toString().lines().count());
      assertTrue(out.toString().contains("\"photo_jpeg_base64\":\"AA\""));
      assertTrue(notes.delete("sill", "A0", "n-0"));
      assertEquals(199, notes.find("sill", Optional.of("A0")).size());
    }
  }
}

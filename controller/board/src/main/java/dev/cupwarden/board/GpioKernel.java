package dev.cupwarden.board;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.Buffer;
import java.nio.ByteBuffer;
import java.nio.file.Path;

/** The three calls of Linux by which a character device of GPIO lines is used. */
interface GpioKernel {
  /** Opens a device for reading and writing; its file descriptor. */
  int open(Path device) throws IOException;

  /**
   * One request.
   *
   * @param argument a direct buffer in the machine's byte order, which the kernel may write to
   */
  void ioctl(int fd, int request, ByteBuffer argument) throws IOException;

  /** Gives a device or its lines back. */
  void close(int fd) throws IOException;

  /** The machine's own. */
  static GpioKernel real() {
    return new Linux(Native.load("c", Libc.class));
  }

  /** The C library's calls; the last two of its arguments are variable, an integer or a pointer. */
  interface Libc extends Library {
    int open(String path, int flags, Object... mode) throws LastErrorException;

    int ioctl(int fd, NativeLong request, Object... argument) throws LastErrorException;

    int close(int fd) throws LastErrorException;
  }

  /** By way of JNA, which the I2C provider brings along anyway. */
  record Linux(Libc libc) implements GpioKernel {
    /** {@code O_RDWR | O_CLOEXEC} of every machine that there is a package for. */
    private static final int FLAGS = 2 | 0x80000;

    @Override
    public int open(Path device) throws IOException {
      try {
        return libc.open(device.toString(), FLAGS);
      } catch (LastErrorException e) {
        throw new IOException(e.getMessage(), e);
      }
    }

    @Override
    public void ioctl(int fd, int request, ByteBuffer argument) throws IOException {
      try {
        libc.ioctl(fd, new NativeLong(request & 0xFFFFFFFFL, true), (Buffer) argument);
      } catch (LastErrorException e) {
        throw new IOException(e.getMessage(), e);
      }
    }

    @Override
    public void close(int fd) throws IOException {
      try {
        libc.close(fd);
      } catch (LastErrorException e) {
        throw new IOException(e.getMessage(), e);
      }
    }
  }
}

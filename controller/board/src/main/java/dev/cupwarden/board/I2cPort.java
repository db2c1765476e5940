package dev.cupwarden.board;

/** A chip's place on a bus, as its driver talks to it. */
public interface I2cPort {
  /** One written message, bytes 0 to 255. */
  void write(int... bytes) throws ChipException;

  /** One read message of exactly that many bytes. */
  byte[] read(int count) throws ChipException;

  /** The register's address, then a repeated start, then that many bytes from it on. */
  byte[] readFrom(int register, int count) throws ChipException;
}

package dev.cupwarden.board;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** The I2C chips there is a driver for, with the addresses their pins allow. */
enum PartNumber {
  /** Weight converter. */
  NAU7802(Set.of(Nau7802.ADDRESS)),
  /** Air temperature and humidity. */
  SHT3X(Set.of(0x44, 0x45));

  /** Of the eight-way switch TCA9548A: three address pins. */
  static final Set<Integer> SWITCH_ADDRESSES =
      IntStream.rangeClosed(0x70, 0x77).boxed().collect(Collectors.toUnmodifiableSet());

  private final Set<Integer> addresses;

  PartNumber(Set<Integer> addresses) {
    this.addresses = addresses;
  }

  Set<Integer> addresses() {
    return addresses;
  }

  /** The chip of that part number in lower case. */
  static Optional<PartNumber> of(String part) {
    return Arrays.stream(values()).filter(number -> number.word().equals(part)).findFirst();
  }

  static String known() {
    return Arrays.stream(values()).map(PartNumber::word).collect(Collectors.joining(", "));
  }

  private String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}

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
  SHT3X(Set.of(0x44, 0x45)),
  /** Four-input converter of moisture probes: one address pin, four ways. */
  ADS1115(Set.of(0x48, 0x49, 0x4A, 0x4B)),
  /** Port expander: three address pins; from 0x20, the variant with an A from 0x38. */
  PCF8574(
      IntStream.concat(IntStream.rangeClosed(0x20, 0x27), IntStream.rangeClosed(0x38, 0x3F))
          .boxed()
          .collect(Collectors.toUnmodifiableSet()));

  /** Of the eight-way switch TCA9548A: three address pins. */
  static final Set<Integer> SWITCH_ADDRESSES =
      IntStream.rangeClosed(0x70, 0x77).boxed().collect(Collectors.toUnmodifiableSet());

  @SuppressWarnings("ImmutableEnumChecker") // Each is made by Set.of or as an unmodifiable set.
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

package dev.cupwarden.host.notify;

/** One way to reach people. */
interface NoticeChannel {
  /** As it is stored: {@code mail} or {@code webhook}. */
  String name();

  /**
   * Sends; returns once the other side has taken it.
   *
   * @throws NotSentException if it has not, for now
   */
  void send(Message message) throws NotSentException;
}

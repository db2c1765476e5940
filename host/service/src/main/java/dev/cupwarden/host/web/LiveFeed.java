package dev.cupwarden.host.web;

import dev.cupwarden.host.ingest.LiveEvent;
import io.javalin.http.sse.SseClient;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * News to every page that is open, as server-sent events. Each page has a queue and a thread of its
 * own: one that reads too slowly is let go, and its browser comes again and loads everything anew.
 */
final class LiveFeed implements Consumer<LiveEvent>, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LiveFeed.class);
  private static final int MOST_PAGES = 64;
  private static final int QUEUE = 2_000;
  private static final long HEARTBEAT_S = 10;

  private final Set<Page> pages = ConcurrentHashMap.newKeySet();
  private volatile boolean closing;

  /** Takes a page that asks for news. */
  void connect(SseClient client) {
    if (closing || pages.size() >= MOST_PAGES) {
      client.close();
      return;
    }
    client.keepAlive();
    Page page = new Page(client);
    client.onClose(page::leave);
    pages.add(page);
    page.thread.start();
  }

  @Override
  public void accept(LiveEvent event) {
    for (Page page : pages) {
      page.offer(event);
    }
  }

  int pages() {
    return pages.size();
  }

  @Override
  public void close() {
    closing = true;
    pages.forEach(Page::leave);
  }

  private final class Page {
    private final SseClient client;
    private final BlockingQueue<LiveEvent> queue = new ArrayBlockingQueue<>(QUEUE);
    private final Thread thread = new Thread(this::work, "live");
    private volatile boolean leaving;

    Page(SseClient client) {
      this.client = client;
      thread.setDaemon(true);
    }

    void offer(LiveEvent event) {
      if (!leaving && !queue.offer(event)) {
        LOG.info("a page that reads too slowly is let go");
        leave();
      }
    }

    void leave() {
      leaving = true;
      pages.remove(this);
      thread.interrupt();
    }

    private void work() {
      try {
        client.sendComment("here");
        while (!leaving && !client.terminated()) {
          LiveEvent event = queue.poll(HEARTBEAT_S, TimeUnit.SECONDS);
          if (event == null) {
            client.sendComment("still here");
          } else {
            client.sendEvent(event.name(), event.json());
          }
        }
      } catch (InterruptedException stopped) {
        LOG.debug("a page is gone", stopped);
      } catch (RuntimeException gone) {
        LOG.debug("a page is gone", gone);
      } finally {
        leaving = true;
        pages.remove(this);
        client.close();
      }
    }
  }
}

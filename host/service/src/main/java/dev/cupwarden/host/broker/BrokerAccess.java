package dev.cupwarden.host.broker;

import com.hivemq.extension.sdk.api.ExtensionMain;
import com.hivemq.extension.sdk.api.auth.SimpleAuthenticator;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthInput;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthOutput;
import com.hivemq.extension.sdk.api.auth.parameter.TopicPermission;
import com.hivemq.extension.sdk.api.auth.parameter.TopicPermission.MqttActivity;
import com.hivemq.extension.sdk.api.packets.auth.DefaultAuthorizationBehaviour;
import com.hivemq.extension.sdk.api.packets.connect.ConnackReasonCode;
import com.hivemq.extension.sdk.api.packets.connect.ConnectPacket;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartOutput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopOutput;
import com.hivemq.extension.sdk.api.services.Services;
import com.hivemq.extension.sdk.api.services.builder.Builders;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.broker.HostMqttLink.Credential;
import java.net.InetAddress;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Who comes in, and to which topics: the host itself to all of them; a bench, by its name and key,
 * to those of its own that a bench speaks and hears; and as long as no bench has a key, any program
 * of this machine.
 */
public final class BrokerAccess implements ExtensionMain, SimpleAuthenticator {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerAccess.class);

  private final Keys keys;
  private final Credential host;

  /** The keys of benches. */
  public interface Keys {
    boolean any();

    boolean matches(String bench, char[] key);
  }

  /**
   * @param host with which name and password the host itself comes, made anew at each start
   */
  public BrokerAccess(Keys keys, Credential host) {
    this.keys = keys;
    this.host = host;
  }

  @Override
  public void extensionStart(ExtensionStartInput input, ExtensionStartOutput output) {
    Services.securityRegistry().setAuthenticatorProvider(asked -> this);
  }

  @Override
  public void extensionStop(ExtensionStopInput input, ExtensionStopOutput output) {}

  @Override
  public void onConnect(SimpleAuthInput input, SimpleAuthOutput output) {
    ConnectPacket asks = input.getConnectPacket();
    Optional<String> user = asks.getUserName();
    String password = asks.getPassword().map(BrokerAccess::text).orElse("");
    if (user.isPresent() && user.get().equals(host.user())) {
      hostItself(password, output);
    } else if (user.isPresent()) {
      bench(user.get(), password, asks.getClientId(), output);
    } else if (!keys.any() && isHere(input)) {
      output.authenticateSuccessfully();
    } else {
      refuse(output, "a bench comes with its name and key");
    }
  }

  private void hostItself(String password, SimpleAuthOutput output) {
    if (MessageDigest.isEqual(bytes(password), bytes(host.password()))) {
      output.authenticateSuccessfully();
    } else {
      refuse(output, "not the host");
    }
  }

  private void bench(String bench, String key, String clientId, SimpleAuthOutput output) {
    if (!keys.matches(bench, key.toCharArray())) {
      refuse(output, "name and key do not belong together");
    } else if (!clientId.equals("cupwarden-" + bench)) {
      // Under another's id it would take over that one's session, and the orders waiting in it.
      refuse(output, "the client id of bench " + bench + " is cupwarden-" + bench);
    } else {
      Topics topics = new Topics(bench);
      output.getDefaultPermissions().setDefaultBehaviour(DefaultAuthorizationBehaviour.DENY);
      for (String topic :
          new String[] {
            topics.presence(),
            topics.beat(),
            topics.readings(),
            topics.cup("+"),
            topics.benchStatus(),
            topics.setup(),
            topics.events(),
            topics.receipts()
          }) {
        output.getDefaultPermissions().add(allowed(topic, MqttActivity.PUBLISH));
      }
      output.getDefaultPermissions().add(allowed(topics.orders(), MqttActivity.SUBSCRIBE));
      output.getDefaultPermissions().add(allowed(topics.kept(), MqttActivity.SUBSCRIBE));
      // What is said by its own name, so that it knows of another one that goes by it.
      output.getDefaultPermissions().add(allowed(topics.presence(), MqttActivity.SUBSCRIBE));
      output.getDefaultPermissions().add(allowed(topics.beat(), MqttActivity.SUBSCRIBE));
      output.authenticateSuccessfully();
    }
  }

  private static TopicPermission allowed(String filter, MqttActivity activity) {
    return Builders.topicPermission()
        .topicFilter(filter)
        .type(TopicPermission.PermissionType.ALLOW)
        .activity(activity)
        .build();
  }

  private static void refuse(SimpleAuthOutput output, String why) {
    LOG.info("A client was not let in to the broker: {}", why);
    output.failAuthentication(ConnackReasonCode.NOT_AUTHORIZED, why);
  }

  private static boolean isHere(SimpleAuthInput input) {
    return input
        .getConnectionInformation()
        .getInetAddress()
        .map(InetAddress::isLoopbackAddress)
        .orElse(false);
  }

  private static String text(ByteBuffer bytes) {
    return StandardCharsets.UTF_8.decode(bytes.duplicate()).toString();
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}

package rakelight.desk;

import jakarta.servlet.Filter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.ServletResponse;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import java.io.IOException;
import org.jspecify.annotations.Nullable;

/**
 * A GET is a GET. The web server would take one with this header for what the header says, and a
 * link from elsewhere could then ask for more than to look.
 */
final class PlainMethods implements Filter {
  private static final String OVERRIDE = "X-HTTP-Method-Override";

  @Override
  public void doFilter(ServletRequest request, ServletResponse response, FilterChain chain)
      throws IOException, ServletException {
    chain.doFilter(new AsSent((HttpServletRequest) request), response);
  }

  private static final class AsSent extends HttpServletRequestWrapper {
    AsSent(HttpServletRequest request) {
      super(request);
    }

    @Override
    public @Nullable String getHeader(String name) {
      return name.equalsIgnoreCase(OVERRIDE) ? null : super.getHeader(name);
    }
  }
}

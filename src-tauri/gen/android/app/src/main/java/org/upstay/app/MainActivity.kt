package org.upstay.app

import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.view.View
import android.webkit.WebView
import androidx.activity.enableEdgeToEdge
import androidx.core.content.IntentCompat
import androidx.core.view.ViewCompat
import androidx.core.view.WindowInsetsCompat
import java.io.File
import java.io.IOException
import kotlin.concurrent.thread

/** The one window: keeps the page clear of bars, notch and keyboard, and takes packs that other apps hand over. */
class MainActivity : TauriActivity() {
  private var page: WebView? = null

  override fun onCreate(savedInstanceState: Bundle?) {
    enableEdgeToEdge()
    super.onCreate(savedInstanceState)
    keepClear()
    // An activity that the system brings back has the old intent with it: that pack was taken already.
    if (savedInstanceState == null) takePack(intent)
  }

  override fun onWebViewCreate(webView: WebView) {
    page = webView
  }

  override fun onNewIntent(intent: Intent) {
    super.onNewIntent(intent)
    takePack(intent)
  }

  /**
   * The window goes from edge to edge, the page does not: older web views know nothing of bars, and none shrinks its page
   * by itself when the keyboard comes up in such a window.
   */
  private fun keepClear() {
    val content = findViewById<View>(android.R.id.content)
    ViewCompat.setOnApplyWindowInsetsListener(content) { view, insets ->
      val kinds =
        WindowInsetsCompat.Type.systemBars() or WindowInsetsCompat.Type.displayCutout() or WindowInsetsCompat.Type.ime()
      val clear = insets.getInsets(kinds)
      view.setPadding(clear.left, clear.top, clear.right, clear.bottom)
      WindowInsetsCompat.CONSUMED
    }
  }

  /** Copies a pack into the folder where the app looks for such packs, and tells the page. */
  private fun takePack(intent: Intent?) {
    val from: Uri =
      when (intent?.action) {
        Intent.ACTION_VIEW -> intent.data
        Intent.ACTION_SEND -> IntentCompat.getParcelableExtra(intent, Intent.EXTRA_STREAM, Uri::class.java)
        else -> null
      } ?: return
    // Only what another app's provider hands out; a path could name this app's own files.
    if (from.scheme != "content" || from.authority == "$packageName.fileprovider") return
    val folder = File(cacheDir, "opened")
    thread {
      val part = File(folder, "${System.nanoTime()}.part")
      try {
        folder.mkdirs()
        contentResolver.openInputStream(from)?.use { input ->
          part.outputStream().use { output ->
            input.copyTo(output)
            output.fd.sync()
          }
        }
        part.renameTo(File(folder, "${part.nameWithoutExtension}.zip"))
      } catch (_: IOException) {
        part.delete()
      } catch (_: SecurityException) {
        part.delete()
      }
      runOnUiThread { page?.evaluateJavascript("dispatchEvent(new Event('pack-opened'))", null) }
    }
  }
}

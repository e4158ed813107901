/* The least window of the same kit that shows a page: what a start cannot be faster than. */
#include <gtk/gtk.h>
#include <webkit2/webkit2.h>

int main(int count, char **words)
{
    gtk_init(&count, &words);
    GtkWidget *window = gtk_window_new(GTK_WINDOW_TOPLEVEL);
    gtk_window_set_default_size(GTK_WINDOW(window), 360, 740);
    GtkWidget *view = webkit_web_view_new();
    gtk_container_add(GTK_CONTAINER(window), view);
    webkit_web_view_load_html(WEBKIT_WEB_VIEW(view),
        "<!doctype html><body style='background:#dde;color:#113'><h1>A page</h1><p>One line of text.</p>", NULL);
    g_signal_connect(window, "destroy", G_CALLBACK(gtk_main_quit), NULL);
    gtk_widget_show_all(window);
    gtk_main();
    return 0;
}

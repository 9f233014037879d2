/* theme.c - the look: style sheet, the palette in use, and its inks for drawing
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One provider holds the rules, a second the palette (named colours only, found by the rules across providers), a
 * third what high contrast adds. Which palette: HANDWHEEL_THEME, else what the desktop's settings portal says of
 * colour scheme and contrast, else GTK's own settings as they stood at the start.
 */

#include "config.h"

#include "window/theme.h"

#include <glib/gi18n.h>

#include "handwheel-resources.h"

#define RESOURCES "/net/handwheel/"
#define APPEARANCE "org.freedesktop.appearance"

typedef struct
{
  GdkDisplay     *display;              /* owns this */
  GtkCssProvider *rules, *palette, *contrast;
  GDBusProxy     *portal;
  GCancellable   *cancellable;
  HwPalette       current;
  gboolean        dark, high_contrast;
} Theme;

static const char * const palette_files[HW_N_PALETTES] = {
  RESOURCES "palette-light.css", RESOURCES "palette-dark.css", RESOURCES "palette-contrast.css",
  RESOURCES "palette-contrast-dark.css",
};
static const char * const palette_words[HW_N_PALETTES] = { "light", "dark", "contrast", "contrast-dark" };

static void
free_theme (gpointer data)
{
  Theme *self = data;

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->portal);
  g_clear_object (&self->rules);
  g_clear_object (&self->palette);
  g_clear_object (&self->contrast);
  g_free (self);
}

static Theme *
peek_theme (GdkDisplay *display)
{
  return g_object_get_data (G_OBJECT (display), "hw-theme");
}

static void
show_palette (Theme    *self,
              HwPalette palette)
{
  gboolean contrast = palette == HW_PALETTE_CONTRAST || palette == HW_PALETTE_CONTRAST_DARK;
  gboolean dark = palette == HW_PALETTE_DARK || palette == HW_PALETTE_CONTRAST_DARK;
  GtkSettings *settings = gtk_settings_get_for_display (self->display);
  gboolean was_dark = FALSE;

  self->current = palette;
  gtk_css_provider_load_from_resource (self->palette, palette_files[palette]);
  if (contrast)
    gtk_css_provider_load_from_resource (self->contrast, RESOURCES "contrast.css");
  else
    gtk_css_provider_load_from_data (self->contrast, "", -1);
  /* What we do not dress ourselves (file chooser, print dialogue) goes along. Set to what it is, GTK would read its
   * theme anew. */
  g_object_get (settings, "gtk-application-prefer-dark-theme", &was_dark, NULL);
  if (was_dark != dark)
    g_object_set (settings, "gtk-application-prefer-dark-theme", dark, NULL);
}

static void
follow_desktop (Theme *self)
{
  HwPalette palette = self->dark ? HW_PALETTE_DARK : HW_PALETTE_LIGHT;

  if (self->high_contrast)
    palette = self->dark ? HW_PALETTE_CONTRAST_DARK : HW_PALETTE_CONTRAST;
  if (palette != self->current)
    show_palette (self, palette);
}

/* 1 prefers dark, 2 prefers light, 0 does not mind; contrast 1 prefers more. */
static void
take_setting (Theme      *self,
              const char *key,
              GVariant   *value)
{
  if (!g_variant_is_of_type (value, G_VARIANT_TYPE_UINT32))
    return;
  if (g_strcmp0 (key, "color-scheme") == 0)
    self->dark = g_variant_get_uint32 (value) == 1;
  else if (g_strcmp0 (key, "contrast") == 0)
    self->high_contrast = g_variant_get_uint32 (value) == 1;
  follow_desktop (self);
}

static void
portal_signal_cb (GDBusProxy *portal,
                  const char *sender,
                  const char *signal,
                  GVariant   *parameters,
                  Theme      *self)
{
  const char *space = NULL;
  const char *key = NULL;
  g_autoptr (GVariant) value = NULL;

  if (g_strcmp0 (signal, "SettingChanged") != 0 || !g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &space, &key, &value);
  if (g_strcmp0 (space, APPEARANCE) == 0)
    take_setting (self, key, value);
}

static void
setting_read_cb (GObject      *source,
                 GAsyncResult *result,
                 gpointer      data)
{
  /* A desktop without the setting answers with an error; then GTK's own settings stand. */
  g_autoptr (GVariant) reply = g_dbus_proxy_call_finish (G_DBUS_PROXY (source), result, NULL);
  g_autoptr (GVariant) outer = NULL;
  g_autoptr (GVariant) inner = NULL;
  GdkDisplay *display = gdk_display_get_default ();
  Theme      *self = display != NULL ? peek_theme (display) : NULL;

  if (reply == NULL || self == NULL || !g_variant_is_of_type (reply, G_VARIANT_TYPE ("(v)")))
    return;
  g_variant_get (reply, "(v)", &outer);
  inner = g_variant_is_of_type (outer, G_VARIANT_TYPE_VARIANT) ? g_variant_get_variant (outer) : g_variant_ref (outer);
  take_setting (self, data, inner);
}

static void
portal_ready_cb (GObject      *source,
                 GAsyncResult *result,
                 gpointer      data)
{
  static const char * const keys[] = { "color-scheme", "contrast" };
  g_autoptr (GError) error = NULL;
  GDBusProxy *portal = g_dbus_proxy_new_for_bus_finish (result, &error);
  Theme      *self = data;

  if (portal == NULL)                   /* cancelled (then @data is gone), or no bus: GTK's own settings stand */
    return;
  self->portal = portal;
  g_signal_connect (portal, "g-signal", G_CALLBACK (portal_signal_cb), self);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    g_dbus_proxy_call (portal, "Read", g_variant_new ("(ss)", APPEARANCE, keys[i]), G_DBUS_CALL_FLAGS_NONE, 1000,
                       self->cancellable, setting_read_cb, (gpointer) keys[i]);
}

static int
named_palette (const char *word)
{
  for (int i = 0; i < HW_N_PALETTES; i++)
    if (g_strcmp0 (word, palette_words[i]) == 0)
      return i;
  return -1;
}

static void
read_gtk_settings (Theme *self)
{
  g_autofree char *name = NULL;

  g_object_get (gtk_settings_get_for_display (self->display), "gtk-application-prefer-dark-theme", &self->dark,
                "gtk-theme-name", &name, NULL);
  if (name == NULL)
    return;
  self->high_contrast = g_str_has_prefix (name, "HighContrast") || g_str_has_suffix (name, "-hc")
                        || g_str_has_suffix (name, "-hc-dark");
  if (g_str_has_suffix (name, "-dark") || g_str_equal (name, "HighContrastInverse"))
    self->dark = TRUE;
}

static void
add_provider (Theme          *self,
              GtkCssProvider *provider,
              guint           above)
{
  gtk_style_context_add_provider_for_display (self->display, GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + above);
}

/* GTK takes the direction from its own catalogue, and so runs from left to right where that is not installed. */
static void
take_direction (void)
{
  /* Translators: put “default:RTL” here if your language is written from right to left, and leave “default:LTR” as it
   * is otherwise. Nothing else is understood. */
  const char *ours = _("default:LTR");
  const char *asked = g_getenv ("HANDWHEEL_DIRECTION");

  if (g_str_equal (ours, "default:RTL") || g_strcmp0 (asked, "rtl") == 0)
    gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
}

void
hw_theme_attach (GdkDisplay *display)
{
  Theme *self = peek_theme (display);
  int    named = named_palette (g_getenv ("HANDWHEEL_THEME"));

  if (self != NULL)
    return;
  take_direction ();
  g_resources_register (hw_get_resource ());
  self = g_new0 (Theme, 1);
  self->display = display;
  self->rules = gtk_css_provider_new ();
  self->palette = gtk_css_provider_new ();
  self->contrast = gtk_css_provider_new ();
  self->cancellable = g_cancellable_new ();
  g_object_set_data_full (G_OBJECT (display), "hw-theme", self, free_theme);

  add_provider (self, self->palette, 0);
  add_provider (self, self->rules, 1);
  add_provider (self, self->contrast, 2);
  gtk_icon_theme_add_resource_path (gtk_icon_theme_get_for_display (display), RESOURCES "icons");
  gtk_css_provider_load_from_resource (self->rules, RESOURCES "style.css");
  read_gtk_settings (self);
  self->current = HW_N_PALETTES;
  if (named >= 0)
    {
      show_palette (self, (HwPalette) named);
      return;
    }
  follow_desktop (self);
  g_dbus_proxy_new_for_bus (G_BUS_TYPE_SESSION, G_DBUS_PROXY_FLAGS_DO_NOT_LOAD_PROPERTIES, NULL,
                            "org.freedesktop.portal.Desktop", "/org/freedesktop/portal/desktop",
                            "org.freedesktop.portal.Settings", self->cancellable, portal_ready_cb, self);
}

void
hw_theme_set_palette (GdkDisplay *display,
                      HwPalette   palette)
{
  Theme *self = peek_theme (display);

  g_return_if_fail (self != NULL && palette < HW_N_PALETTES);
  show_palette (self, palette);
}

HwPalette
hw_theme_get_palette (GdkDisplay *display)
{
  Theme *self = peek_theme (display);

  g_return_val_if_fail (self != NULL, HW_PALETTE_LIGHT);
  return self->current;
}

GdkRGBA
hw_theme_colour (GtkWidget  *widget,
                 const char *name)
{
  GdkRGBA colour;

  if (!gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &colour))
    gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  return colour;
}

static HwInk
look_up_ink (GtkWidget  *widget,
             const char *name)
{
  GdkRGBA colour = hw_theme_colour (widget, name);

  return (HwInk) { (double) colour.red, (double) colour.green, (double) colour.blue };
}

HwInks
hw_theme_inks (GtkWidget *widget)
{
  return (HwInks) {
    .ink = look_up_ink (widget, "hw_ink"),
    .mute = look_up_ink (widget, "hw_mute"),
    .paper = look_up_ink (widget, "hw_paper"),
    .line = look_up_ink (widget, "hw_line"),
    .stitch = look_up_ink (widget, "hw_plum"),
  };
}

double
hw_theme_em (GtkWidget *widget)
{
  PangoContext               *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double                      size = (double) pango_font_description_get_size (font) / PANGO_SCALE;
  double                      dpi = pango_cairo_context_get_resolution (context);

  if (pango_font_description_get_size_is_absolute (font))
    return size;
  return size * (dpi > 0 ? dpi : 96) / 72;
}

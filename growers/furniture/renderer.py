from django.forms.renderers import BaseRenderer, DjangoTemplates
from django.template import TemplateDoesNotExist, loader


class Renderer(BaseRenderer):
    """Our own templates for widgets, Django's where we have none."""

    form_template_name = "_parts/fields.html"

    def get_template(self, template_name):
        try:
            return loader.get_template(template_name)
        except TemplateDoesNotExist:
            return DjangoTemplates().get_template(template_name)

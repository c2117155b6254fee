import django.contrib.auth.models
import django.contrib.auth.validators
import django.db.models.deletion
import django.utils.timezone
import growers.people.models
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('auth', '0012_alter_user_first_name_max_length'),
    ]

    operations = [
        migrations.CreateModel(
            name='User',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('password', models.CharField(max_length=128, verbose_name='password')),
                ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                ('is_superuser', models.BooleanField(default=False, help_text='Designates that this user has all permissions without explicitly assigning them.', verbose_name='superuser status')),
                ('username', models.CharField(error_messages={'unique': 'A user with that username already exists.'}, help_text='Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.', max_length=150, unique=True, validators=[django.contrib.auth.validators.UnicodeUsernameValidator()], verbose_name='username')),
                ('first_name', models.CharField(blank=True, max_length=150, verbose_name='first name')),
                ('last_name', models.CharField(blank=True, max_length=150, verbose_name='last name')),
                ('email', models.EmailField(blank=True, max_length=254, verbose_name='email address')),
                ('is_staff', models.BooleanField(default=False, help_text='Designates whether the user can log into this admin site.', verbose_name='staff status')),
                ('is_active', models.BooleanField(default=True, help_text='Designates whether this user should be treated as active. Unselect this instead of deleting accounts.', verbose_name='active')),
                ('date_joined', models.DateTimeField(default=django.utils.timezone.now, verbose_name='date joined')),
                ('groups', models.ManyToManyField(blank=True, help_text='The groups this user belongs to. A user will get all permissions granted to each of their groups.', related_name='user_set', related_query_name='user', to='auth.group', verbose_name='groups')),
                ('user_permissions', models.ManyToManyField(blank=True, help_text='Specific permissions for this user.', related_name='user_set', related_query_name='user', to='auth.permission', verbose_name='user permissions')),
            ],
            options={
                'verbose_name': 'person',
            },
            managers=[
                ('objects', django.contrib.auth.models.UserManager()),
            ],
        ),
        migrations.CreateModel(
            name='Holding',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('slug', models.SlugField(max_length=40, unique=True)),
                ('name', models.CharField(max_length=120)),
                ('zone', models.CharField(default='Europe/London', max_length=64, validators=[growers.people.models.real_zone])),
                ('hemisphere', models.CharField(choices=[('N', 'northern'), ('S', 'southern')], default='N', max_length=1)),
                ('winter_begins_month', models.PositiveSmallIntegerField(default=7)),
                ('latitude', models.FloatField(blank=True, null=True)),
                ('longitude', models.FloatField(blank=True, null=True)),
                ('mass_unit', models.CharField(choices=[('kg', 'kilograms'), ('lb', 'pounds and ounces')], default='kg', max_length=2)),
                ('length_unit', models.CharField(choices=[('ft', 'feet and inches'), ('cm', 'centimetres'), ('m', 'metres')], default='ft', max_length=2)),
                ('temperature_unit', models.CharField(choices=[('C', '°C'), ('F', '°F')], default='C', max_length=1)),
                ('currency', models.CharField(default='GBP', max_length=3)),
                ('shrink_limit', models.FloatField(default=0.02)),
                ('indoor_temperature_c', models.FloatField(default=20.0)),
                ('indoor_humidity', models.FloatField(default=0.5)),
                ('invented', models.BooleanField(default=False)),
                ('evidence_no', models.PositiveBigIntegerField(default=0)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('winter_begins_month__range', (1, 12))), name='holding_month_is_a_month'), models.CheckConstraint(condition=models.Q(('shrink_limit__gt', 0), ('shrink_limit__lt', 0.087)), name='holding_limit_is_likely'), models.CheckConstraint(condition=models.Q(('indoor_humidity__gt', 0), ('indoor_humidity__lt', 1)), name='holding_humidity_is_a_fraction')],
            },
        ),
        migrations.CreateModel(
            name='Membership',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='memberships', to=settings.AUTH_USER_MODEL)),
                ('holding', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='memberships', to='people.holding')),
                ('role', models.CharField(choices=[('keeper', 'keeps the book'), ('hand', 'writes in the book'), ('reader', 'looks into the book')], default='hand', max_length=6)),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('user', 'holding'), name='one_membership_a_person')],
            },
        ),
        migrations.CreateModel(
            name='Receipt',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('holding', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='people.holding')),
                ('client_id', models.UUIDField()),
                ('action', models.CharField(max_length=80)),
                ('digest', models.CharField(max_length=64)),
                ('result', models.JSONField(default=dict)),
                ('made_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now)),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('holding', 'client_id'), name='one_receipt_a_form')],
            },
        ),
    ]
